import { chromium } from 'playwright-core';
import { join } from 'node:path'; import { tmpdir } from 'node:os';
const home = join(tmpdir(), 'ectype-chromium-147');
const b = await chromium.launch({ executablePath: join(home,'chromium'), args:['--no-sandbox','--use-gl=angle','--use-angle=swiftshader','--enable-unsafe-swiftshader','--ignore-gpu-blocklist'], env:{...process.env, LD_LIBRARY_PATH: home} });
const p = await b.newPage({ viewport:{width:1440,height:900} });
p.on('pageerror', e => console.log('ERR', e.message));
await p.goto('http://127.0.0.1:4571/');
await p.waitForTimeout(3000);
await p.screenshot({path:'/tmp/team/report/a1.png'});
try { await p.getByRole('button',{name:/finding$/i}).first().click({timeout:30000}); } catch(e) { console.log('no finding', e.message.slice(0,100)); }
await p.waitForTimeout(15000);
await p.screenshot({path:'/tmp/team/report/a2.png'});
try { await p.getByRole('button',{name:/unfold the finding/i}).click({timeout:20000}); } catch(e) { console.log('no unfold'); }
await p.waitForTimeout(2500);
await p.screenshot({path:'/tmp/team/report/a3.png'});
const heads = await p.$$('.ground-head');
console.log('grounds', heads.length);
if (heads[0]) { await heads[0].click(); await p.waitForTimeout(1500); await p.screenshot({path:'/tmp/team/report/a4.png'}); }
if (heads[2]) { await heads[2].click(); await p.waitForTimeout(1500); await p.screenshot({path:'/tmp/team/report/a5.png'}); }
await b.close();
