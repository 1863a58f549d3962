import { breech } from '../breech.ts';

await breech(process.argv[2], process.argv[3], (l) => console.log(l));
