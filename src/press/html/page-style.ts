/**
 * How the plain page looks: the reader's own type size, one column, paper and ink in daylight and
 * lamplight. No fonts are fetched; nothing depends on colour alone.
 */
export const PAGE_STYLE = `
:root{color-scheme:light dark;--ink:#1d252b;--paper:#fbfaf7;--soft:#55524d;--line:#b9b5ad;--accent:#1f5a61}
@media(prefers-color-scheme:dark){:root{--ink:#ece9e2;--paper:#1b1d1e;--soft:#b8b3aa;--line:#4a4a48;--accent:#8cc3c9}
svg{background:#fbfaf7;border-radius:.25rem}}
body{margin:0;background:var(--paper);color:var(--ink);font:1.125rem/1.6 Georgia,"Noto Serif",serif}
main,footer{max-width:44rem;margin:0 auto;padding:1rem}
h1{font-size:2.2rem;line-height:1.15}h2{margin-top:3rem;border-top:2px solid var(--accent);padding-top:.5rem}
h3{color:var(--accent)}figure{margin:1.5rem 0}img,svg{max-width:100%;height:auto}dd svg,dt svg{vertical-align:middle}
figcaption,.fine,footer,.byline{color:var(--soft);font-size:.9rem}
.row{margin:.6rem 0;padding-bottom:.4rem;border-bottom:1px solid var(--line);overflow-wrap:anywhere}
.row .label{font-weight:bold;color:var(--accent)}.row .count{font-weight:bold;float:inline-end;margin-inline-start:1rem}
.unbroken{white-space:nowrap}.note,.caution{border-inline-start:3px solid var(--accent);padding-inline-start:.8rem}
.caution{border-color:var(--ink)}dl div{display:grid;grid-template-columns:minmax(5rem,20%) 1fr;gap:.8rem;margin:.4rem 0}
dt{font-weight:bold}dd{margin:0}.scroll{overflow-x:auto}table{border-collapse:collapse;width:100%}
caption{text-align:start;font-weight:bold;padding:.4rem 0}th,td{padding:.35rem .6rem;text-align:center;border-bottom:1px solid var(--line)}
th[scope=row]{text-align:start;font-weight:normal}
@media print{body{font-size:12pt;background:#fff;color:#000}}
`.trim();
