/** The look of the page: paper, ink and one warm accent, by day, by night and on paper. */
export const LASTING_STYLE = `@page{margin:14mm}
:root{color-scheme:light dark;--sheet:light-dark(#fff,#1e2427);--ink:light-dark(#1b2327,#ecefe9);--soft:light-dark(#4d585c,#b0baba);--line:light-dark(#c5ccc8,#3b4549);--tint:light-dark(#fdf0cf,#3a311a);--heat:light-dark(#7a4a00,#f6c566);
--slab:Rockwell,"Rockwell Nova","Roboto Slab","DejaVu Serif","Sitka Small",Georgia,serif;
--sans:"Avenir Next","Segoe UI Variable Text","Segoe UI",Ubuntu,Cantarell,"Noto Sans","Liberation Sans",sans-serif}
*{box-sizing:border-box}
html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{margin:0;background:var(--sheet);color:var(--ink);font:16px/1.45 var(--sans);font-variant-numeric:tabular-nums}
main{max-width:47rem;margin:0 auto;padding:1.5rem 1.25rem 3rem}
h1,h2{font-family:var(--slab);font-weight:600;line-height:1.2}
h1{font-size:1.8rem;margin:0 0 .6rem}
h2{font-size:1.25rem;margin:2rem 0 .3rem;break-after:avoid}
p{margin:0 0 .6rem}
.shop{margin:0;color:var(--soft)}
.counts{list-style:none;margin:0 0 .5rem;padding:0;display:flex;flex-wrap:wrap;gap:.1rem 1.2rem;color:var(--soft)}
.doubt{border-left:4px solid var(--heat);background:var(--tint);padding:.3rem .7rem}
figure{margin:.6rem 0;break-inside:avoid}
.lasting-drawing{display:block;max-width:100%;height:auto}
.lasting-drawing text{font-family:var(--sans);fill:var(--soft)}
.lasting-drawing .lasting-followed{fill:var(--ink)}
.lasting-grid{stroke:var(--line)}
.lasting-curve,.lasting-lost{stroke:var(--ink)}
.lasting-failed{fill:var(--ink)}
.lasting-band{fill:var(--tint);stroke:var(--heat)}
.lasting-law{stroke:var(--heat)}
.legend{list-style:none;padding:0;margin:.3rem 0;font-size:.9rem}
.legend li{display:flex;gap:.5rem;align-items:center}
.lasting-key{flex:none}
.points{margin:.4rem 0;padding-left:1.2rem}
.notes,.soft,footer{color:var(--soft);font-size:.9rem}
footer{margin-top:2rem;border-top:1px solid var(--line);padding-top:.5rem}
footer p{margin:0}
table{border-collapse:collapse;width:100%;font-size:.92rem;margin:.5rem 0 1rem}
caption{text-align:left;font-weight:600;padding:.3rem 0}
th,td{padding:.2rem .6rem .2rem 0;text-align:right;border-bottom:1px solid var(--line);font-weight:400;vertical-align:top}
th:first-child,td:first-child{text-align:left}
thead th{font-weight:600;color:var(--soft);vertical-align:bottom;border-color:var(--ink)}
tr{break-inside:avoid}
small{color:var(--soft)}
@media print{:root{color-scheme:light}body{font-size:10.5pt}main{max-width:none;padding:0}}
@media (max-width:600px){table,figure{display:block;overflow-x:auto}.lasting-drawing{max-width:none}td:last-child{white-space:nowrap}.legend{max-width:calc(100vw - 2.5rem)}}
@media (forced-colors:active){.lasting-band{fill:none;stroke:CanvasText}.lasting-law{stroke:Highlight}.lasting-curve,.lasting-lost{stroke:CanvasText}.lasting-failed{fill:CanvasText}}
`;
