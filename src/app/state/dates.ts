import { type Dates, type Document, noDates, onlyOpening, type ScanEntry, scanById } from './document.ts';
import { type Brought, bringIn } from './scans.ts';
import { act, documentNow, setState, useDocument } from './store.ts';

export const datePlaces = ['earlierId', 'laterId', 'earlierAgainId', 'laterAgainId'] as const;
export type DatePlace = (typeof datePlaces)[number];

/** The scans that stand for the dates; one that was put away stands for none. */
export const datesOf = (document: Document): Readonly<Record<DatePlace, ScanEntry | undefined>> => ({
  earlierId: scanById(document, document.dates.earlierId),
  laterId: scanById(document, document.dates.laterId),
  earlierAgainId: scanById(document, document.dates.earlierAgainId),
  laterAgainId: scanById(document, document.dates.laterAgainId),
});

export const useDates = () => datesOf(useDocument((document) => document));

/** Names often carry a date or a number: the order in which one would read them, 2 before 10. */
export const byReading = (a: { readonly name: string }, b: { readonly name: string }): number =>
  a.name.localeCompare(b.name, 'en', { numeric: true });

/**
 * The document with two scans laid as one object on two dates. Where they lie on the plate as a pair they are no longer compared as
 * one: no question of matrices is asked of one object.
 */
export function datedAs(document: Document, dates: Dates): Document {
  const two = [dates.earlierId, dates.laterId];
  const asPair = two.includes(document.referenceId) && two.includes(document.subjectId);
  return { ...document, dates, ...(asPair && { compare: false, findingOpen: false }) };
}

/** Lays two scans of the document as the dates, in the order of their names, and opens the room. */
export function layDates(one: ScanEntry, other: ScanEntry): void {
  const [earlier, later] = [one, other].sort(byReading);
  act('Two dates laid out', (document) => datedAs(document, { ...noDates, earlierId: earlier.id, laterId: later.id }));
  setState({ step: 'change', margin: true });
}

/** One scan stands for one date: taken for another, it leaves the one it stood for. */
export const placedAt = (dates: Dates, place: DatePlace, id: string | null): Dates => {
  const cleared = Object.fromEntries(datePlaces.map((name) => [name, dates[name] === id ? null : dates[name]]));
  return { ...(cleared as unknown as Dates), [place]: id };
};

export const placeDate = (place: DatePlace, id: string | null): void =>
  act('Date chosen', (document) => datedAs(document, placedAt(document.dates, place, id)));

/** What was taken for the earlier is the later. */
export const exchangeDates = (): void =>
  act('Dates exchanged', (document) => {
    const { earlierId, laterId, earlierAgainId, laterAgainId } = document.dates;
    return datedAs(document, {
      ...{ earlierId: laterId, laterId: earlierId },
      ...{ earlierAgainId: laterAgainId, laterAgainId: earlierAgainId },
    });
  });

/**
 * Files let go in the room: two are the dates, in the order of their names; one takes the given place, else the date that is
 * missing; where both stand it waits to be chosen. The pair that the page laid out by itself makes room.
 */
export async function bringDates(files: readonly Brought[], place: DatePlace | null = null): Promise<void> {
  const taken = [...files].sort(byReading).slice(0, 2);
  const lay = (document: Document, ids: readonly string[]): Document => {
    const before = withoutOpening(document, ids);
    const scans = ids.flatMap((id) => scanById(document, id) ?? []).sort(byReading);
    return datedAs(before, datesWith(standing(before), scans, place));
  };
  await bringIn(taken, 'Two dates laid out', lay, howTaken(files.length, place));
  if (documentNow().dates.laterId !== null) setState({ margin: true });
}

/** What a person should know of how so many files were taken; null where nothing is left open. */
function howTaken(files: number, place: DatePlace | null): string | null {
  const { earlierId, laterId } = datesOf(documentNow());
  if (files > 2) return 'Two dates take two scans: the first two by name were taken.';
  const bothStand = files === 1 && place === null && earlierId && laterId;
  return bothStand ? 'Both dates stand already: choose in the margin which of them this scan shows.' : null;
}

/** The dates without those whose scan was put away. */
function standing(document: Document): Dates {
  const scans = datesOf(document);
  return Object.fromEntries(datePlaces.map((name) => [name, scans[name]?.id ?? null])) as unknown as Dates;
}

function datesWith(dates: Dates, scans: readonly ScanEntry[], place: DatePlace | null): Dates {
  const [first, second] = scans;
  if (second) return { ...noDates, earlierId: first.id, laterId: second.id };
  const free = place ?? (['earlierId', 'laterId'] as const).find((name) => dates[name] === null);
  return first && free ? placedAt(dates, free, first.id) : dates;
}

/** Without the pair that the page laid out, unless something was written or drawn on it. */
function withoutOpening(document: Document, ids: readonly string[]): Document {
  const others = document.scans.filter(({ id }) => !ids.includes(id));
  if (!onlyOpening({ ...document, scans: others })) return document;
  const own = document.scans.filter(({ id }) => ids.includes(id));
  return own.some(({ simulated }) => simulated)
    ? document
    : { ...document, ...{ scans: own, referenceId: null, subjectId: null, compare: false, findingOpen: false } };
}
