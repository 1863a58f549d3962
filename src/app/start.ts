import { warmWorkers } from '../workers/browser/openWorker.ts';

// The workers translate their code while the page's own is still fetched and read.
warmWorkers(2);
void import('./main.tsx');
