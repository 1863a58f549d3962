import type { RidgesShown } from '../../read/index.ts';

/** Goes with every word about ridges. */
export const fingerCaution =
  'Marks of fingers may be a living handler’s. They are recorded as present or absent only; their spacing tells neither age nor sex.';

/** What was made out on a back, without the caution. */
export function ridgeWords({ proposal, areaMm2 }: Pick<RidgesShown, 'proposal' | 'areaMm2'>): string {
  if (proposal === 'notJudged') return 'The scan is too coarse to show ridges of skin.';
  if (proposal === 'absent') return 'No ridges of 0.3 to 0.8 mm were made out.';
  return `Ridges of 0.3 to 0.8 mm over ${Math.round(areaMm2)} mm² run one way, as skin leaves them, and as cloth, tools and some scanners do: look at them before anything is recorded.`;
}

/** What stands under a picture of a back. */
export function ridgesCaption(shown: RidgesShown): string {
  const how = shown.sharp ? 'Ridges of 0.3 to 0.8 mm' : 'Where relief of 0.3 to 0.8 mm lies, blurred';
  return `${how}. ${ridgeWords(shown)} ${fingerCaution}`;
}
