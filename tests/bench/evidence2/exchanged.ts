import { chanceOf, searchFaces } from '../../../src/core/fit/index.ts';
import { reverseFit } from '../../../src/core/fit/reverse.ts';
import { pairEvidence } from '../../../src/core/judge/evidence.ts';
import { load, names } from './dev.ts';

/** `exchanged.ts [PATTERN]`: the finding with the scans in either order, of the kept pairs that were fitted. */
const filter = new RegExp(process.argv[2] ?? '.');
for (const name of names().filter((each) => filter.test(each))) {
  const { reference, subject, fit: kept, searched, same } = load(name);
  if (!kept.found) continue;
  const { best, none } = searched.none ? searched : searchFaces(reference, subject);
  const fit = { ...kept, chance: chanceOf(best.significance, none.wrongSign, none.mirror) };
  const here = pairEvidence(reference, subject, fit);
  const there = pairEvidence(subject, reference, reverseFit(fit, reference, subject));
  const say = (e: typeof here) =>
    `${e.finding} ${e.weighed?.score.toFixed(1)} cells ${e.places?.tiles.congruent} of ${e.places?.tiles.compared}`;
  console.log(
    here.finding === there.finding ? ' ' : '*',
    name,
    same ? 'same' : 'different',
    '|',
    say(here),
    '|',
    say(there),
  );
}
