/**
 * The gate of a bundle: every file is announced here with its name and size before it is read. Takes
 * what a folder or the directory of a zip says; refuses by throwing a `Fault` that names the file, the
 * limit and the remedy. Knows neither folders nor zips.
 */
import { Fault } from '../../base/fault.ts';
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { checkName, skeletonOf } from './paths.ts';

export class Intake {
  /** The name in the bundle and the name where it comes from, in order of arrival. */
  readonly accepted = new Map<string, string>();
  readonly #source: string;
  readonly #skeletons = new Map<string, string>();
  #totalBytes = 0;

  constructor(source: string) {
    this.#source = source;
  }

  accept(path: string, size: { readonly bytes: number; readonly packedBytes: number }): string {
    const checked = checkName(path);
    if ('problem' in checked) throw this.refuse(path, `has a name that ${checked.problem}`);
    this.#refuseTwin(checked.name);
    this.#refuseSize(checked.name, size);
    this.accepted.set(checked.name, path);
    if (this.accepted.size > BUNDLE_LIMITS.files) {
      throw this.#fault(
        `more than ${BUNDLE_LIMITS.files} files`,
        'leave out what is no part of the pattern',
      );
    }
    return checked.name;
  }

  refuse(path: string, problem: string): Fault {
    return this.#fault(
      `${printable(path)} ${problem}`,
      'take it out of the bundle, or rename it',
      path,
    );
  }

  #refuseTwin(name: string): void {
    const skeleton = skeletonOf(name);
    const twin = this.#skeletons.get(skeleton);
    if (twin !== undefined) {
      const problem =
        twin === name ? 'is in the bundle twice' : `looks the same as ${printable(twin)}`;
      throw this.refuse(name, problem);
    }
    this.#skeletons.set(skeleton, name);
  }

  #refuseSize(name: string, size: { readonly bytes: number; readonly packedBytes: number }): void {
    const limit = name.endsWith('.json') ? BUNDLE_LIMITS.jsonBytes : BUNDLE_LIMITS.fileBytes;
    if (size.bytes > limit)
      throw this.#fault(
        `${name} has ${size.bytes} bytes; at most ${limit} are read`,
        'make it smaller',
        name,
      );
    const ratio = size.bytes / Math.max(1, size.packedBytes);
    if (size.bytes > BUNDLE_LIMITS.ratioFreeBytes && ratio > BUNDLE_LIMITS.ratio) {
      throw this.#fault(
        `${name} unpacks to ${Math.round(ratio)} times its packed size`,
        'pack the bundle again from its folder',
        name,
      );
    }
    this.#totalBytes += size.bytes;
    if (this.#totalBytes > BUNDLE_LIMITS.totalBytes) {
      throw this.#fault(
        `the files together have more than ${BUNDLE_LIMITS.totalBytes} bytes`,
        'export the photographs smaller',
      );
    }
  }

  #fault(message: string, remedy: string, place = this.#source): Fault {
    return new Fault('input', message, { place: printable(place), remedy });
  }
}

/** A name that can be shown: what cannot be seen is written as its code point. */
export const printable = (name: string): string =>
  name.replaceAll(
    /[\p{Cc}\p{Cf}\p{Cs}\p{Cn}]/gu,
    (character) =>
      `<U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}>`,
  );

export const zipTooLarge = (place: string, bytes: number): Fault =>
  new Fault('input', `the zip has ${bytes} bytes; at most ${BUNDLE_LIMITS.zipBytes} are read`, {
    place,
    remedy: 'export the photographs smaller',
  });
