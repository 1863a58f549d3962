import { base64 } from '../drawing/base64.ts';
import { serifs } from '../drawing/index.ts';

/** A typeface to carry in the page, as WOFF2; without it the reader's own old-style serif is used. */
export interface Typeface {
  readonly name: string;
  readonly upright: Uint8Array;
  readonly italic?: Uint8Array;
}

/** The page's style: a printed catalogue on screen, by day and by night, and on A4. */
export function pageStyle(typeface?: Typeface): string {
  const family = typeface ? `'${typeface.name}', ${serifs}` : serifs;
  return `${typeface ? fontFaces(typeface) : ''}${tones}${layout(family)}${tables}${finding}${sheets}${print}`;
}

function fontFaces({ name, upright, italic }: Typeface): string {
  const face = (style: string, bytes: Uint8Array): string =>
    `@font-face{font-family:'${name}';font-style:${style};font-weight:400 800;src:url(data:font/woff2;base64,${base64(bytes)}) format('woff2')}\n`;
  return face('normal', upright) + (italic ? face('italic', italic) : '');
}

const tones = `
:root{--paper:#fbf8f1;--ink:#25211b;--soft:#6b6254;--rule:#c9bfab;--accent:#8a2f1c;--mark:#f1e8d6;color-scheme:light dark}
@media (prefers-color-scheme:dark){:root{--paper:#1a1815;--ink:#e9e1d2;--soft:#a89d8a;--rule:#4a4337;--accent:#e39072;--mark:#2b2620}}
`;

const layout = (family: string): string => `
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:17px/1.45 ${family};font-kerning:normal;font-variant-numeric:lining-nums proportional-nums;text-rendering:optimizeLegibility}
body{margin:0 auto;padding:3rem 1.5rem 4rem;max-width:calc(720px + 3rem)}
header{margin-bottom:2rem}
.running,.sc,figcaption .sc{font-variant-caps:all-small-caps;letter-spacing:.07em}
.running{margin:0 0 1.4rem;padding-bottom:.35rem;border-bottom:1px solid var(--rule);color:var(--soft)}
h1{font-weight:400;font-size:2rem;line-height:1.16;margin:0 0 .8rem;text-wrap:balance}
h2{font-weight:400;font-size:1.3rem;margin:2.8rem 0 .8rem;padding-top:.5rem;border-top:1px solid var(--rule)}
h3{font-weight:400;font-size:1rem;font-style:italic;margin:0 0 .3rem}
p{margin:0 0 .8rem}
.question{font-style:italic;font-size:1.15rem}
.pair{color:var(--soft);overflow-wrap:anywhere}
.pair .sc:nth-of-type(n+2){margin-left:1em}
.notice{border:1px solid var(--accent);padding:.6rem .9rem;margin-top:1.2rem}
.notice b{font-weight:400;color:var(--accent);font-variant-caps:all-small-caps;letter-spacing:.07em}
ul,ol{margin:0 0 .8rem;padding-left:1.2rem}
li{margin-bottom:.25rem}
dl{display:grid;grid-template-columns:8.5rem 1fr;gap:.45rem 1.2rem;margin:1rem 0}
dt{font-variant-caps:all-small-caps;letter-spacing:.06em;color:var(--soft)}
dd{margin:0;overflow-wrap:anywhere}
dd ul,td ul{padding:0;margin:0;list-style:none}
figure{margin:1.6rem 0 2.4rem}
figure svg{display:block;width:100%;height:auto}
figure.small{display:grid;grid-template-columns:350px 1fr;gap:1.4rem;align-items:end}
figcaption{margin-top:.7rem;font-size:.84rem;line-height:1.4;color:var(--soft)}
figcaption i,figcaption .sc{color:var(--ink)}
.side-by-side{display:grid;grid-template-columns:1fr 1fr;gap:20px}
.side-by-side figure.small{display:block;margin:0 0 2.4rem}
code{font:.8em/1.4 ui-monospace,'DejaVu Sans Mono',Menlo,Consolas,monospace;overflow-wrap:anywhere}
.once{white-space:nowrap}
footer{margin-top:3rem;padding-top:.5rem;border-top:1px solid var(--rule);color:var(--soft);font-size:.86rem}
@media (max-width:640px){dl{grid-template-columns:1fr;gap:.1rem}dd{margin-bottom:.6rem}.side-by-side,figure.small{display:block}h1{font-size:1.6rem}section{overflow-x:auto}}
`;

const tables = `
table{border-collapse:collapse;width:100%;margin:1.2rem 0 1.6rem;font-size:.86rem;line-height:1.35;font-variant-numeric:lining-nums tabular-nums}
caption{text-align:left;color:var(--soft);padding-bottom:.5rem;font-variant-numeric:lining-nums proportional-nums}
thead th{border-top:1.5px solid var(--ink);border-bottom:.75px solid var(--ink);vertical-align:bottom}
tbody tr:last-child>*{border-bottom:1.5px solid var(--ink)}
tbody tr+tr>*{border-top:1px solid var(--rule)}
th,td{font-weight:400;text-align:right;padding:.28rem 0 .28rem .9rem;vertical-align:top}
th:first-child,td:first-child{padding-left:0;text-align:left}
.words{text-align:left}
th b{font-weight:400;color:var(--accent)}
#making th:first-child{width:7.5rem}
#making td{width:45%;overflow-wrap:anywhere}
table.matrix{width:auto}
table.matrix tbody tr:first-child>*{border-top:1.5px solid var(--ink)}
table.matrix td:first-child{text-align:right}
`;

const finding = `
.finding{font-size:1.32rem;line-height:1.38;margin:0 0 1.4rem;text-wrap:pretty}
.strength{margin:0 0 1.6rem}
.strength .ends{display:flex;justify-content:space-between;margin:0;font-size:.86rem;font-style:italic;color:var(--soft)}
.strength ol{display:grid;grid-template-columns:repeat(7,1fr);list-style:none;margin:0;padding:0;border-top:1px solid var(--ink)}
.strength li{position:relative;margin:0;padding-top:.5rem;text-align:center;font-size:.82rem;color:var(--soft)}
.strength li::before{content:'';position:absolute;top:0;left:50%;height:6px;border-left:1px solid var(--ink)}
.strength .here{color:var(--accent)}
.strength .here::before{top:-5px;left:calc(50% - 4.5px);width:9px;height:9px;border:0;border-radius:50%;background:var(--accent)}
.steps{margin:-.8rem 0 1.6rem;font-size:.82rem;line-height:1.4;color:var(--soft)}
.strength .here span{border-bottom:1px solid var(--accent)}
.own{border-left:3px solid var(--rule);padding-left:1rem;margin:1.4rem 0}
.own .signed{text-align:right;font-style:italic}
`;

const sheets = `
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.sheet header{margin-bottom:1rem}
.sheet h1{font-size:1.6rem}
figure.seals{margin:0 0 1.2rem}
figure.seals figcaption{margin-top:.3rem}
#grounds{margin-top:3rem}
.grounds{display:grid;grid-template-columns:repeat(3,1fr);gap:1.2rem 1.4rem;margin-bottom:1.4rem}
.pairs figure{display:grid;grid-template-columns:5fr 2fr;gap:1.4rem;align-items:end;margin:0 0 .8rem;break-inside:avoid}
.pairs figure svg{width:100%;height:auto}
.ground{font-size:.9rem;line-height:1.36}
.ground figure{margin:0 0 .6rem}
.ground figure svg{height:300px}
.ground h3{margin-bottom:.2rem}
.ground .side{font-style:normal;font-size:.82rem;color:var(--accent);white-space:nowrap}
.ground p{margin:0 0 .4rem}
.doubt{color:var(--soft)}
.doubt .sc{color:var(--ink)}
#annex{margin-top:4rem}
.caption{font-size:.84rem;line-height:1.4;color:var(--soft)}
.caption i,.caption .sc{color:var(--ink)}
@media (max-width:640px){.grounds,.pairs figure{grid-template-columns:1fr}.ground figure svg{height:auto}}
`;

const print = `
@page{size:A4;margin:17mm 15mm 18mm}
@media print{
:root{--paper:#fff;--ink:#000;--soft:#4d473d;--rule:#b9b1a1;--accent:#7c2716;color-scheme:light}
html{font-size:10.5pt}
body{max-width:none;padding:0}
h2{break-after:avoid}
figure,table,.strength,dl>dd,tr,.notice,.own{break-inside:avoid}
table.matrix{break-inside:avoid}
.sheet{break-after:page}
.sheet h1{font-size:1.35rem;margin-bottom:.3rem}
.sheet header{margin-bottom:.6rem}
.sheet .running{margin-bottom:.6rem}
.sheet .notice{margin:.4rem 0 0;padding:.3rem .6rem;font-size:.86rem}
.sheet .finding{font-size:1.12rem;margin-bottom:.8rem}
.sheet .strength{margin-bottom:.8rem}
.sheet dl{margin:.4rem 0;font-size:.92rem;line-height:1.32}
.sheet .own{margin:.6rem 0}
figure.seals svg{max-height:96mm}
#grounds{margin-top:0}
#grounds h2{margin-top:0}
.grounds{grid-template-columns:repeat(3,1fr);gap:4mm 6mm;margin-bottom:4mm}
.ground{font-size:8.8pt;line-height:1.3}
.ground figure svg{height:80mm}
.ground{break-inside:avoid}
#annex{margin-top:0}
.sheet.last{break-after:auto}
.sheet.last figure{margin:0 0 3mm}
.sheet.last figure.seals svg{max-height:82mm}
.sheet.last h2{margin:3mm 0 1.5mm;padding-top:1.5mm}
.sheet.last table,.sheet.last ul,.sheet.last footer{font-size:8.4pt;line-height:1.25;margin:2mm 0}
.sheet.last figcaption{font-size:8pt}
.sheet.last code{font-size:6.5pt}
caption{break-after:avoid}
thead{display:table-header-group}
.side-by-side{break-inside:avoid}
}
`;
