import { warmBenches } from '../workers/browser/openBench.ts';

// The workers translate their code while the page's own is still fetched and read.
warmBenches(2);
void import('./main.tsx');
