/** How the report looks: a page of the notebook on a screen, black on white on paper. */
export const REPORT_STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { background: #f2f4e8; -webkit-text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 1.2rem clamp(0.8rem, 4vw, 3rem) 3rem; max-width: 58rem; background: #fbfcf6; color: #152036;
  border-left: 3px solid #bf3a33; overflow-wrap: break-word;
  font: 400 1rem/1.55 "Iowan Old Style", Palatino, "Palatino Linotype", "DejaVu Serif", Georgia, serif;
}
h1, h2, h3 { line-height: 1.2; break-after: avoid; }
h1 { font-size: clamp(1.6rem, 1.2rem + 2vw, 2.3rem); margin: 0.3rem 0 0.2rem; }
h2 { font-size: 1.4rem; margin: 2.2rem 0 0.6rem; padding-bottom: 0.2rem; border-bottom: 2px solid #152036; }
h3 { font-size: 1.08rem; margin: 1.4rem 0 0.3rem; }
p, ul { margin: 0.3rem 0 0.8rem; max-width: 46rem; }
.subtitle { font-style: italic; font-size: 1.15rem; color: #4b5258; margin-bottom: 1rem; }
.unbroken { white-space: nowrap; }
a { color: #123f8c; text-decoration-thickness: 1px; text-underline-offset: 0.15em; }
.note { font-size: 0.92rem; color: #3d444a; border-left: 4px solid #bf3a33; padding-left: 0.7rem; }
.scroll { overflow-x: auto; margin: 0.8rem 0 1.1rem; }
.scroll:focus-visible { outline: 3px solid #123f8c; }
table { border-collapse: collapse; font: 400 0.88rem/1.35 "Segoe UI", "Helvetica Neue", "DejaVu Sans", Arial, sans-serif; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 600; padding: 0 0 0.35rem; font-size: 0.95rem; }
th, td { text-align: left; vertical-align: top; padding: 0.28rem 0.6rem 0.28rem 0; border-bottom: 1px solid #c5d3c6; }
th { vertical-align: bottom; border-bottom: 2px solid #152036; }
.number { text-align: right; }
figure { margin: 1rem 0 1.4rem; break-inside: avoid; }
figure > div { overflow-x: auto; background: #fff; border: 1px solid #c5d3c6; }
figure svg { display: block; width: 100%; min-width: 30rem; height: auto; }
figcaption { font-weight: 600; font-size: 0.95rem; margin-top: 0.35rem; }
.ruled { border: 2px solid #152036; padding: 0.5rem 0.8rem; background: #fff; break-inside: avoid; margin: 0.8rem 0; }
.ruled p { margin: 0; font-weight: 600; }
.ruled div { height: 2.1rem; border-bottom: 1px solid #8fa596; }
footer { margin-top: 2.5rem; border-top: 1px solid #8fa596; padding-top: 0.5rem; font-size: 0.88rem; color: #4b5258; }
@media print {
  @page { size: A4; margin: 15mm 15mm 17mm; }
  html, body { background: #fff; color: #000; }
  body { border: 0; padding: 0; max-width: none; font-size: 10.2pt; }
  a { color: #000; text-decoration: none; }
  .scroll, figure > div { overflow: visible; border: 0; }
  figure svg { min-width: 0; }
  table { font-size: 8.4pt; }
  caption, figcaption, .note { font-size: 9pt; }
  .short { break-inside: avoid; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  .begins-page { break-before: page; }
  .subtitle, .note, footer, caption { color: #000; }
}
`
