"""How the report looks on screen and on paper."""

from __future__ import annotations

STYLE = """
:root { --ink: #22201c; --faint: #6f685c; --rule: #d9d0c0; --paper: #fdfbf6; --panel: #f2e9da; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 1.5rem 1.25rem 4rem; background: var(--paper); color: var(--ink);
  font: 16px/1.5 "Source Sans 3", "Segoe UI", "Helvetica Neue", Arial, sans-serif; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0 0 .2rem; }
h2 { font-size: 1.2rem; margin: 2.2rem 0 .6rem; border-bottom: 1px solid var(--rule); padding-bottom: .2rem; }
p { margin: .5rem 0; } .faint { color: var(--faint); }
.verdict { border-left: .5rem solid #2e7d4f; background: #e9f3ec; padding: .7rem 1rem; margin: 1rem 0; }
.verdict.bad { border-color: #c62828; background: #fbe6e4; } .verdict strong { font-size: 1.15rem; }
.tapes { font-size: 1.15rem; }
.pictures { display: flex; flex-wrap: wrap; gap: 1rem; align-items: flex-end; }
figure { margin: 0; } figure.key { flex: 3 1 22rem; } figure.side { flex: 1.3 1 14rem; }
figure svg { width: 100%; height: auto; display: block; background: #fff; border: 1px solid var(--rule); }
figcaption { font-size: .9rem; color: var(--faint); margin-top: .3rem; }
table { border-collapse: collapse; width: 100%; font-size: .95rem; }
th, td { text-align: left; vertical-align: top; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid var(--rule); }
td.n, th.n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
.holds { color: #2e7d4f; } .warns { color: #9a6200; font-weight: 600; } .fails { color: #c62828; font-weight: 700; }
tr.family th { padding-top: .8rem; color: var(--faint); font-weight: 600; }
.box { border: 1px solid var(--rule); background: var(--panel); padding: .4rem 1rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .3rem 1rem; margin: .5rem 0; } dt { font-weight: 600; }
dd { margin: 0; } ul { padding-left: 1.2rem; } li { margin: .25rem 0; } .wide { overflow-x: auto; }
.lace svg { max-width: 14rem; } .paper { display: none; } figure.strip svg, .picture svg { max-height: 60rem; }
@media print { body { max-width: none; padding: 0; background: #fff; font-size: 10pt; line-height: 1.35; }
  h2 { margin-top: 1.2rem; } h2, h3 { break-after: avoid; } tr, figure, li { break-inside: avoid; }
  th, td { padding: .1rem .5rem .1rem 0; } figure svg { max-height: 17cm; } .paper { display: block; }
  tr.check-holds { display: none; } }
"""
