import type { WitnessStanding } from '../strip/index.ts';

/** Of what was fitted to a reference, that which may be shown in its place there: what is of another matrix or of another design is not. */
export function ofOneSeal<T extends { readonly name: string }>(
  fitted: readonly T[],
  standings: readonly WitnessStanding[],
): T[] {
  const findings = new Map(standings.map(({ name, finding }) => [name, finding]));
  return fitted.filter(({ name }) => !['against', 'otherDesign'].includes(findings.get(name) ?? ''));
}

/** Names of those of which it is not decided that they came from the reference. */
export const notDecided = (
  fitted: readonly { readonly name: string }[],
  standings: readonly WitnessStanding[],
): string[] => {
  const supported = new Set(standings.flatMap(({ name, finding }) => (finding === 'supported' ? [name] : [])));
  return fitted.flatMap(({ name }) => (supported.has(name) ? [] : [name]));
};
