/** The look of the page: the wizard's paper, ink and one warm accent, on one side of paper. Every length follows the size of the type. */
import type { Paper } from './schema.ts';

const SIZES: Readonly<Record<Paper, { readonly page: string; readonly width: string; readonly height: string }>> = {
  a4: { page: 'A4', width: '210mm', height: '297mm' },
  letter: { page: 'letter', width: '8.5in', height: '11in' },
};

/** `points` is the size of the type. */
export function styleFor(paper: Paper, points: number): string {
  const { page, width, height } = SIZES[paper];
  return `@page{size:${page} portrait;margin:0}
:root{font-size:${points}pt;--paper:#e9ece7;--sheet:#fff;--ink:#1b2327;--soft:#4d585c;--line:#c5ccc8;--heat:#f2ae24;--heat-tint:#fdf0cf;--heat-ink:#7a4a00;
--slab:Rockwell,"Rockwell Nova","Roboto Slab","DejaVu Serif","Sitka Small",Georgia,serif;
--sans:"Avenir Next","Segoe UI Variable Text","Segoe UI",Ubuntu,Cantarell,"Noto Sans","Liberation Sans",sans-serif}
*{box-sizing:border-box}
html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.34 var(--sans)}
.page{background:var(--sheet);width:${width};min-height:${height};margin:6mm auto;padding:9mm 13mm 7mm;display:flex;flex-direction:column;gap:.85rem;box-shadow:0 1px 6px #1b232733}
h1,h2,p,ul,ol,dl,dd,figure,table{margin:0;padding:0}
ul,ol{list-style:none}
h1{font:600 1.85rem/1.1 var(--slab);margin:.1rem 0 .35rem}
h2{font:600 1.1rem/1.2 var(--slab);margin-bottom:.22rem}
header{display:flex;justify-content:space-between;gap:2.5rem;border-bottom:1.5px solid var(--ink);padding-bottom:.5rem}
.shop{font:600 1.25rem/1.2 var(--slab)}
.kind{color:var(--soft)}
.reference{text-align:right;flex:none;max-width:45%}
.reference dl div{display:flex;justify-content:flex-end;gap:.5rem}
.reference dt{color:var(--soft)}
.reference dd{overflow-wrap:anywhere}
.invented{display:inline-block;border:1px dashed var(--heat-ink);color:var(--heat-ink);border-radius:3px;padding:0 .5rem;font-size:.9rem;font-weight:700;background:var(--sheet)}
.advice{display:grid;grid-template-columns:1fr 21rem;gap:2rem;background:var(--heat-tint);border-left:.7rem solid var(--heat);padding:.8rem 1.2rem .85rem;border-radius:0 5px 5px 0}
.advice>div:only-child{grid-column:1/-1}
.eyebrow{font-size:.85rem;font-weight:700;text-transform:uppercase;letter-spacing:.06em;color:var(--heat-ink)}
.advised{font-weight:700;margin-bottom:.25rem}
.advice p+p{margin-top:.12rem}
figure{align-self:center}
.hundred{display:block;width:100%;height:auto}
figcaption{font-size:.9rem;line-height:1.28}
figcaption b{display:block;margin-bottom:.35rem}
figcaption .legend{margin-top:.4rem}
.legend li{display:flex;gap:.45rem;align-items:center}
.one{width:1.05rem;height:.88rem;flex:none}
.looked{display:grid;grid-template-columns:5fr 7fr;gap:2rem}
.looked>div:only-child{grid-column:1/-1}
.looked section+section{margin-top:.6rem}
.reasons{columns:2;column-gap:2rem}
.reasons section{break-inside:avoid;margin-bottom:.65rem}
.looked li:not(ol li),.reasons li{padding-left:.95rem;position:relative}
.looked li:not(ol li)::before,.reasons li::before{content:"";position:absolute;left:.1rem;top:.46em;width:.4rem;height:.4rem;background:var(--heat);border:.6px solid var(--heat-ink);border-radius:50%}
.likely-body{display:grid;grid-template-columns:14.6rem 1fr;gap:1.1rem;align-items:start}
.card-drawing{width:100%;height:auto;display:block}
.darker{font-size:.82rem;color:var(--soft);text-align:center}
.likely ol{counter-reset:cause}
.likely ol li{counter-increment:cause;padding-left:1.75rem;position:relative;margin-bottom:.28rem;line-height:1.26}
.likely ol li::before{content:counter(cause);position:absolute;left:0;top:0;width:1.22rem;height:1.22rem;border-radius:50%;background:var(--ink);color:#fff;font-size:.82rem;font-weight:700;text-align:center;line-height:1.5}
.causes-note{font-size:.9rem;line-height:1.26;margin-top:.3rem;color:var(--soft)}
.sure{font-weight:700}
.range{color:var(--soft);font-size:.92rem}
table{width:100%;border-collapse:collapse;line-height:1.26}
thead th{font-size:.88rem;color:var(--soft);text-align:left;font-weight:600;border-bottom:1px solid var(--ink);padding:0 .6rem .2rem 0;vertical-align:bottom}
tbody th{text-align:left;font-weight:400}
tbody th,tbody td{padding:.28rem .6rem .28rem 0;border-bottom:1px solid var(--line);vertical-align:top}
th:first-child{padding-left:.45rem}
.c-what{width:38%}.c-price{width:17%}.c-works{width:12%}.c-holds{width:15%}
.advised-row th,.advised-row td{font-weight:700;background:var(--heat-tint)}
.tag{display:inline-block;background:var(--ink);color:#fff;border-radius:3px;font-size:.78rem;font-weight:700;padding:0 .4rem;margin-right:.15rem}
.tag.not{background:none;color:var(--ink);border:1px solid var(--ink);font-weight:400}
small{color:var(--soft);font-size:.9rem}
.rests,.cautions,.ruled-out{font-size:.95rem;line-height:1.3}
.consent{border:1.5px solid var(--ink);border-radius:5px;padding:.6rem 1.2rem .55rem;margin-top:auto}
.boxes li{display:flex;gap:.6rem;align-items:baseline;margin-top:.25rem}
.box{width:1rem;height:1rem;border:1.2px solid var(--ink);border-radius:2px;flex:none;position:relative;top:.14rem}
.lines{display:grid;grid-template-columns:12rem 1fr;gap:2.5rem;margin-top:7mm;font-size:.86rem;color:var(--soft)}
.lines span{border-top:1px solid var(--ink);padding-top:.1rem}
footer{font-size:.82rem;color:var(--soft);line-height:1.25}
@media print{body{background:none}.page{margin:0;box-shadow:none;width:auto;min-height:0;height:calc(${height} - .3mm)}}
@media screen{:root{font-size:max(${points}pt,13px)}.page{height:auto}}
@media screen and (max-width:800px){:root{font-size:15px}.page{width:auto;margin:0;padding:5vw;box-shadow:none}.advice,.looked,.likely-body{grid-template-columns:1fr}.reasons{columns:1}header{flex-direction:column;gap:.8rem}.reference{text-align:left;max-width:none}.reference dl div{justify-content:flex-start}.choices{overflow-x:auto}.card-drawing{max-width:26rem}}
`;
}
