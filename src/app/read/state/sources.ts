import type { SuppliedFrom, Transcription } from '../../../core/read/index.ts';

/** The transcription with a witness or a person of this name among its sources, and how a letter names it. */
export function withSource(
  transcription: Transcription,
  kind: 'witness' | 'person',
  name: string,
): { readonly transcription: Transcription; readonly from: SuppliedFrom } {
  const from = (id: string): SuppliedFrom => ({ from: kind === 'witness' ? 'witness' : 'conjecture', id });
  const known = transcription.sources.find((source) => source.kind === kind && source.name === name);
  if (known) return { transcription, from: from(known.id) };
  const letter = kind === 'witness' ? 'W' : 'P';
  const taken = new Set(transcription.sources.map((source) => source.id));
  let number = 1;
  while (taken.has(`${letter}${number}`)) number++;
  const id = `${letter}${number}`;
  const sources = [...transcription.sources, { id, kind, name }];
  return { transcription: { ...transcription, sources }, from: from(id) };
}
