/**
 * Stitch patterns: their rows work on every count of their multiple, row after row; a chart and the
 * written rows of one pattern say the same thing, stitch for stitch, and show the same multiple.
 */
import type { Finding } from '../../findings/finding.ts';
import type { CheckContext } from './context.ts';

export function checkStitchPatterns(_context: CheckContext): readonly Finding[] {
  return [];
}
