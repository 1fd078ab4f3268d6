/** The look of the page: that of the wizard's paper, ink and one warm accent, on one side of paper. */
import type { Paper } from './schema.ts';

const SIZES: Readonly<Record<Paper, { readonly page: string; readonly width: string; readonly height: string }>> = {
  a4: { page: 'A4', width: '210mm', height: '297mm' },
  letter: { page: 'letter', width: '8.5in', height: '11in' },
};

export function styleFor(paper: Paper): string {
  const { page, width, height } = SIZES[paper];
  return `@page{size:${page} portrait;margin:0}
:root{--paper:#e9ece7;--sheet:#fff;--ink:#1b2327;--soft:#4d585c;--line:#c5ccc8;--heat:#f2ae24;--heat-tint:#fdf0cf;--heat-ink:#7a4a00;
--slab:Rockwell,"Rockwell Nova","Roboto Slab","DejaVu Serif","Sitka Small",Georgia,serif;
--sans:"Avenir Next","Segoe UI Variable Text","Segoe UI",Ubuntu,Cantarell,"Noto Sans","Liberation Sans",sans-serif}
*{box-sizing:border-box}
html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{margin:0;background:var(--paper);color:var(--ink);font:9pt/1.36 var(--sans)}
.page{background:var(--sheet);width:${width};min-height:${height};margin:6mm auto;padding:10mm 13mm 8mm;display:flex;flex-direction:column;gap:3.1mm;box-shadow:0 1px 6px #1b232733}
h1,h2,p,ul,ol,dl,dd,figure,table{margin:0;padding:0}
ul{list-style:none}
h1{font:600 17pt/1.12 var(--slab);margin:.3mm 0 1.2mm}
h2{font:600 10pt/1.2 var(--slab);margin-bottom:.9mm}
header{display:flex;justify-content:space-between;gap:8mm;border-bottom:1.5px solid var(--ink);padding-bottom:2.2mm}
.shop{font:600 11.5pt/1.2 var(--slab)}
.kind,.card-title{color:var(--soft);font-size:8.5pt}
.card-title{color:var(--ink)}
.reference{text-align:right;flex:none}
.reference dl div{display:flex;justify-content:flex-end;gap:1.6mm;font-size:8.5pt}
.reference dt{color:var(--soft)}
.invented{display:inline-block;border:1px dashed var(--heat-ink);color:var(--heat-ink);border-radius:3px;padding:0 1.6mm;font-size:8pt;font-weight:700}
.advice{display:grid;grid-template-columns:1fr 67mm;gap:7mm;background:var(--heat-tint);border-left:2.2mm solid var(--heat);padding:3mm 4mm 3mm 4mm;border-radius:0 5px 5px 0}
.advice>div:only-child{grid-column:1/-1}
.eyebrow{font-size:7.6pt;font-weight:700;text-transform:uppercase;letter-spacing:.06em;color:var(--heat-ink)}
.advised{font-weight:700;margin-bottom:.9mm}
.advice p+p{margin-top:.5mm}
figure{align-self:center}
.hundred{display:block;width:100%;height:auto}
figcaption{font-size:8pt;line-height:1.3;margin-top:1.4mm}
.legend li{display:flex;gap:1.4mm;align-items:center}
.one{width:3.4mm;height:2.8mm;flex:none}
.looked,.reasons{display:grid;grid-template-columns:1fr 1fr;gap:7mm}
.looked{grid-template-columns:5fr 6fr}
.looked>div:only-child{grid-column:1/-1}
.looked section+section,.reasons section+section{margin-top:2.2mm}
.found li,.reasons li{padding-left:3mm;position:relative}
.found li::before,.reasons li::before{content:"";position:absolute;left:.3mm;top:.58em;width:1.3mm;height:1.3mm;background:var(--heat);border:.6px solid var(--heat-ink);border-radius:50%}
.likely-body{display:grid;grid-template-columns:45mm 1fr;gap:4mm;align-items:start}
.card-drawing{width:100%;height:auto;display:block}
.likely ol{list-style:none;counter-reset:cause}
.likely ol li{counter-increment:cause;padding-left:5.4mm;position:relative;margin-bottom:.9mm;line-height:1.28}
.likely ol li::before{content:counter(cause);position:absolute;left:0;top:.1mm;width:3.9mm;height:3.9mm;border-radius:50%;background:var(--ink);color:#fff;font-size:7.4pt;font-weight:700;text-align:center;line-height:3.9mm}
.sure{font-weight:700}
.range{color:var(--soft);font-size:8pt}
table{width:100%;border-collapse:collapse;font-size:8.6pt;line-height:1.28}
thead th{font-size:7.8pt;color:var(--soft);text-align:left;font-weight:600;border-bottom:1px solid var(--ink);padding:0 2mm .7mm 0;vertical-align:bottom}
tbody th{text-align:left;font-weight:400;width:40%}
tbody th,tbody td{padding:1mm 2mm 1mm 0;border-bottom:1px solid var(--line);vertical-align:top}
tbody td:nth-child(2){width:17%}
.advised-row th,.advised-row td{font-weight:700;background:var(--heat-tint)}
.advised-row th{padding-left:1.4mm}
.tag{display:inline-block;background:var(--ink);color:#fff;border-radius:3px;font-size:7pt;font-weight:700;padding:0 1.2mm;margin-right:.6mm}
.tag.not{background:none;color:var(--ink);border:1px solid var(--ink);font-weight:400}
small{color:var(--soft)}
.rests,.cautions,.ruled-out{font-size:8.4pt;line-height:1.3}
.consent{border:1.5px solid var(--ink);border-radius:5px;padding:2.2mm 4mm 2.6mm;margin-top:auto}
.boxes li{display:flex;gap:2mm;align-items:baseline;margin-top:.9mm}
.box{width:3.2mm;height:3.2mm;border:1.2px solid var(--ink);border-radius:2px;flex:none;position:relative;top:.5mm}
.lines{display:grid;grid-template-columns:38mm 1fr;gap:8mm;margin-top:7.5mm;font-size:7.8pt;color:var(--soft)}
.lines span{border-top:1px solid var(--ink);padding-top:.4mm}
footer{font-size:7.4pt;color:var(--soft);line-height:1.25}
@media print{body{background:none}.page{margin:0;box-shadow:none;width:auto;min-height:0;height:calc(${height} - .3mm)}}
@media screen and (max-width:800px){.page{width:auto;margin:0;padding:5vw;box-shadow:none}.advice,.looked,.reasons,.likely-body{grid-template-columns:1fr}header{flex-direction:column}.reference{text-align:left}.reference dl div{justify-content:flex-start}.choices{overflow-x:auto}}
`;
}
