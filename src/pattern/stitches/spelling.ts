/**
 * Written forms of stitches, reduced to one spelling so that `K 2 tog`, `k2 together` and `k2tog`
 * meet. Takes text, gives lower-case text with single spaces; knows no stitch and no count.
 */
const LONG_FORMS: readonly (readonly [RegExp, string])[] = [
  [/[‘’]/g, "'"],
  [/[‐‑]/g, '-'],
  [/\b(?:sl|slip) (\d)-/g, 'sl$1-'],
  [/\b(?:through|thru|in|into) (?:the )?back (?:loops?|lps?)\b/g, 'tbl'],
  [/\bwith (?:the )?yarn (?:in|at) (?:the )?(?:back|rear)\b/g, 'wyib'],
  [/\bwith (?:the )?yarn (?:in|at|to) (?:the )?front\b/g, 'wyif'],
  [/\bstitches\b/g, 'sts'],
  [/\bstitch\b/g, 'st'],
  [/\bpurl-?wise\b|\bp-wise\b|\bp'?wise\b/g, 'pwise'],
  [/\bknit-?wise\b|\bk-wise\b|\bk'?wise\b/g, 'kwise'],
  [/\b(k|p)(?:nit|url)? ?(\d+) ?(?:sts )?tog(?:ether)?\b/g, '$1$2tog'],
  [/\b(k|p)(\d+)tog[- ]?(?:tbl|b)\b/g, '$1$2tog tbl'],
];

/** One spelling for all ways of writing the same words. Idempotent. */
export function spell(written: string): string {
  let text = written.toLowerCase().replace(/\s+/g, ' ').trim();
  for (const [form, short] of LONG_FORMS) text = text.replace(form, short);
  return text;
}
