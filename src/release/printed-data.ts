/**
 * The part of a bundle's data that one language's documents are made of. What only decides whether a
 * release may go out (accepted warnings, who reviewed what, which languages wait) prints nothing, so that
 * answering it lets every document stand. Takes and gives plain data, for recipes.
 */
import type { BundleData } from '../pattern/bundle/schema.ts';

export function printedData(data: BundleData, language: string) {
  const {
    accepted: _accepted,
    heldOver: _heldOver,
    reviewed,
    unreviewed: _unreviewed,
    ...printed
  } = data;
  const reviewer = reviewed?.some((each) => each.language === language) ?? false;
  return { ...printed, ...(reviewer && { reviewed: true }) };
}
