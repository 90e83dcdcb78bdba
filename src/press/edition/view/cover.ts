/** The cover: picture, title, what it is, and the facts that a buyer looks for first. */
import { escapeMarkup } from '../../../base/escape.ts';
import { type EditionOrder, dataOf, namesOf, shownSizes, sizeNameOf, wordsOf } from '../order.ts';
import { listSizeNames, sayName } from '../../../language/index.ts';
import type { Prose } from './prose.ts';

export interface FigureView {
  readonly id: string;
  readonly size: 'cover' | 'full' | 'half' | 'natural';
  readonly alt: string;
  readonly caption: string;
}

export function coverView(order: EditionOrder, prose: Prose) {
  const data = dataOf(order);
  const words = wordsOf(order);
  const [photo] = data.photos.filter(({ role }) => role === 'cover').concat(data.photos);
  const sizes = shownSizes(order).map((index) => data.sizes[index] ?? '');
  const facts = [
    { name: words('label.sizes'), value: listSizeNames(order.language, sizes) },
    { name: words('label.level'), value: words(`level.${data.level}`) },
    { name: words('label.yarn'), value: words(`yarnWeight.${data.yarns[0]?.weight ?? 4}`) },
  ];
  return {
    logo: order.logo === undefined ? '' : data.studio.name,
    cover: photo ? photoFigure(photo, 'cover', prose) : undefined,
    title: titleOf(order, prose),
    subtitle: prose.line('subtitle') ?? '',
    byline: `${words('document.byline', { designer: data.studio.designer })} · ${data.studio.name}`,
    summary: prose.all('summary'),
    facts: facts.map(({ name, value }) => ({ name, value: escapeMarkup(value) })),
  };
}

/** The title; a one-size edition is named for its size. */
export function titleOf(order: EditionOrder, prose: Prose): string {
  const title = prose.line('title') ?? dataOf(order).id;
  if (order.size === undefined) return title;
  return `${title} · ${wordsOf(order)('label.size')} ${sizeNameOf(order, order.size)}`;
}

export function photoFigure(
  photo: EditionOrder['checked']['pattern']['bundle']['data']['photos'][number],
  size: FigureView['size'],
  prose: Prose,
): FigureView {
  return {
    id: `photo-${photo.file}`,
    size,
    alt: prose.line(photo.alt) ?? '',
    caption: photo.caption === undefined ? '' : (prose.line(photo.caption) ?? ''),
  };
}

/** Pictures beside the cover, by what they show. */
export function pictureViews(
  order: EditionOrder,
  prose: Prose,
  roles: readonly string[],
): readonly FigureView[] {
  return dataOf(order)
    .photos.filter(({ role }) => roles.includes(role))
    .map((photo) => photoFigure(photo, 'half', prose));
}

export const nameOf = (order: EditionOrder, group: Parameters<typeof sayName>[2], name: string) =>
  sayName(order.language, namesOf(order), group, name);
