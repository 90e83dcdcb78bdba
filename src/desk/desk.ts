/**
 * What a page of the desk may use, and what a page is. The ports are the same on this machine and in the
 * cloud; what lies behind them is decided where a desk is opened, and no page can tell.
 */
import type { Language } from '../language/index.ts';
import type { Dropped } from '../shelf/handed-in.ts';
import type { Shelf } from '../shelf/shelf.ts';
import type { Answer, Call } from './answer.ts';
import type { Look } from './look.ts';
import type { Releases } from './releases.ts';
import type { Runs } from './runs.ts';
import type { WaitingRoom } from './waiting.ts';
import type { Wording } from './wording.ts';
import type { Work } from './work/jobs.ts';

export interface Desk {
  readonly shelf: Shelf;
  readonly work: Work;
  readonly look: Look;
  readonly runs: Runs;
  readonly releases: Releases;
  /** Files that came back and wait for a yes. */
  readonly waiting: WaitingRoom;
  /** By tag; read when the first page needs them. */
  readonly languages: () => Promise<ReadonlyMap<string, Language>>;
  readonly arrivals: Arrivals;
}

/** How a bundle comes in from a browser: with a form of the desk, or straight to where it is kept. */
export type Arrivals =
  | {
      readonly kind: 'here';
      /** The folder in which patterns lie, to be told. */
      readonly folder: string;
      /** Puts it on the shelf; gives its name. */
      take(dropped: readonly Dropped[]): Promise<string>;
    }
  | {
      readonly kind: 'elsewhere';
      /** A form for one zip that leads back to `/handed-in/<upload>`; good for a while. */
      open(): Promise<UploadForm>;
      /** Puts what was uploaded on the shelf; gives its name. */
      takeUpload(upload: string): Promise<string>;
    };

export interface UploadForm {
  readonly url: string;
  readonly fields: Readonly<Record<string, string>>;
}

/** The words of the address that a route left open, and the wording of the reader. */
export interface Asked {
  readonly call: Call;
  readonly words: Readonly<Record<string, string>>;
  readonly wording: Wording;
}

export type Page = (desk: Desk, asked: Asked) => Promise<Answer>;

/** The text of a field of a form. */
export function fieldOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === 'string' ? value : '';
}
