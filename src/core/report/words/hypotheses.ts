import type { Verdict } from '../../judge/index.ts';
import { sizeSaysWords } from './descent.ts';

/** How a hypothesis stands, to follow its name and a colon. */
export function verdictWords(verdict: Verdict): string {
  if (verdict.code !== 'bySize') return plain[verdict.code];
  return [sizeSaysWords(verdict.size), ...(verdict.blunter ? [blunterWords[verdict.blunter]] : [])].join('; ');
}

const plain: Readonly<Record<Exclude<Verdict['code'], 'bySize'>, string>> = {
  supported: 'supported',
  notSupported: 'not supported',
  notDecided: 'not decided',
  notWeighed: 'not weighed',
  designsAgree: 'not supported: the designs agree',
  designsNotSeenToAgree: 'not excluded: the designs were not found to agree',
};

const blunterWords = {
  subject: 'the subject is the blunter of the two: if one is a copy of the other, the subject is',
  reference: 'the reference is the blunter of the two: if one is a copy of the other, the reference is',
} as const;
