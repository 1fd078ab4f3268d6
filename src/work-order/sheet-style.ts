/** The look of the job sheet: ink on white, in type that is read at arm’s length, on as many sides as that takes. */

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

const SIZES: Readonly<Record<Paper, { readonly page: string; readonly width: string; readonly height: string }>> = {
  a4: { page: 'A4', width: '210mm', height: '297mm' },
  letter: { page: 'letter', width: '8.5in', height: '11in' },
};

/** Smallest type on the sheet, in points. Estimate: what a body text on paper is set in at the least, read past a microscope with gloves on. */
export const LEAST_POINTS = 9;

/** `foot`: what every side bears, so that a loose one is known for what it is. */
export function sheetStyle(paper: Paper, foot: string): string {
  const { page, width, height } = SIZES[paper];
  return `@page{size:${page} portrait;margin:7mm 0 11mm;@bottom-left{margin-left:9mm;content:${cssString(foot)};font:${LEAST_POINTS}pt sans-serif;color:#4d585c}@bottom-right{margin-right:9mm;content:counter(page) " / " counter(pages);font:${LEAST_POINTS}pt sans-serif;color:#4d585c}}
:root{font-size:${LEAST_POINTS}pt;--ink:#1b2327;--soft:#4d585c;--line:#b9c1bd;--heat-ink:#7a4a00;--heat-tint:#fdf0cf;
--sans:"Avenir Next","Segoe UI Variable Text","Segoe UI",Ubuntu,Cantarell,"Noto Sans","Liberation Sans",sans-serif}
*{box-sizing:border-box;margin:0;padding:0}
html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{background:#e9ece7;color:var(--ink);font:1rem/1.17 var(--sans)}
.page{background:#fff;width:${width};min-height:${height};margin:6mm auto;padding:7mm 9mm 6mm;display:flex;flex-direction:column;gap:.55rem}
ol,ul{list-style:none}
h1{font-size:1.7rem;line-height:1.1}
h2{font-size:1.1rem;break-after:avoid;border-bottom:1px solid var(--ink);margin-bottom:.2rem}
small{font-weight:400;color:var(--soft);font-size:1em}
header{display:flex;justify-content:space-between;gap:2rem}
.kind{color:var(--soft)}
header dl{display:grid;grid-template-columns:1fr 1fr;gap:.2rem 1rem;min-width:30rem;align-content:start}
header dl div{display:flex;gap:.5rem}
dt{color:var(--soft)}
dd{flex:1;overflow-wrap:anywhere}
.blank{flex:1;border-bottom:1px solid var(--ink);min-width:8rem}
.invented{border:1px dashed var(--heat-ink);color:var(--heat-ink);border-radius:3px;padding:0 .4rem}
.warnings{background:var(--heat-tint);border-left:.5rem solid var(--heat-ink);padding:.25rem .7rem}
.facts{columns:2;column-gap:1.4rem}
.facts>div{break-inside:avoid;margin-bottom:.5rem}
.facts p{margin-bottom:.12rem}
.balls p{break-inside:avoid}
table{border-collapse:collapse;width:100%}
th{text-align:left;font-weight:400;padding:0 .4rem 0 0}
td{text-align:right;white-space:nowrap}
.hold ol{columns:2;column-gap:1.4rem}
.stage{font-weight:700;color:var(--heat-ink);break-after:avoid;margin:.15rem 0 .1rem}
.step{display:grid;grid-template-columns:1.15rem 1.3rem 1fr;gap:.25rem;break-inside:avoid;padding:.1rem 0;border-bottom:.5px solid var(--line)}
.box{display:inline-grid;place-items:center;width:1.1rem;height:1.1rem;border:1px solid var(--ink);border-radius:2px;font-size:1rem;line-height:1;vertical-align:-.2rem}
.number{text-align:right;color:var(--soft)}
.step i{font-style:normal;font-weight:700;color:var(--heat-ink)}
.leads{color:var(--soft)}
.record{display:flex;flex-wrap:wrap;gap:.15rem .8rem}
.record span{flex:1 1 auto;display:flex;gap:.3rem;color:var(--soft);min-width:40%}
.record u{flex:1;min-width:3rem;border-bottom:.7px solid var(--ink);text-decoration:none}
.cautions ul{columns:2;column-gap:1.4rem}
.cautions li{break-inside:avoid;padding-left:.6rem;text-indent:-.6rem}
.cautions li::before{content:"▪ "}
footer{color:var(--soft)}
.done{break-inside:avoid;display:flex;gap:.5rem;align-items:end;margin-top:auto;padding-top:.3rem}
.done .blank{margin-left:2rem;color:var(--soft)}
.how{color:var(--soft)}
@media print{body{background:none}.page{display:block;margin:0;padding:0 9mm;width:auto;min-height:0}.page>*+*{margin-top:.45rem}.brief .how{display:none}}
@media not print{.page{padding:7mm 9mm 11mm}}
@media screen{:root{font-size:max(${LEAST_POINTS}pt,13px)}.page{width:min(75rem,100%)}}
@media screen and (max-width:800px){.facts,.hold ol,.cautions ul{columns:1}header{flex-direction:column;gap:.5rem}header dl{min-width:0}td{white-space:normal}.page{margin:0;padding:5vw}}
`;
}

/** A text as a string of CSS, whatever is in it; `<` too, since it stands in an element. */
function cssString(text: string): string {
  return `"${text.replaceAll(/[\\"<\n\r\f]/g, (sign) => `\\${sign.codePointAt(0)!.toString(16)} `)}"`;
}
