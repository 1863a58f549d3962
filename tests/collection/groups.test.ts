import { describe, expect, it } from 'vitest';
import {
  copiesFalseSupport,
  type Decision,
  errorDefaults,
  groupObjects,
  type Known,
  type Link,
  regroup,
  thresholdsFor,
} from '../../src/core/collection/index.ts';
import { type Random, seededRandom } from '../../src/core/geometry/index.ts';

const supported = (a: string, b: string, score: number, more: Partial<Link> = {}): Link => ({
  a,
  b,
  finding: 'supported',
  question: 'oneMatrix',
  score,
  strength: 'weak',
  descent: 'cannotJudge',
  imageLeft: [1, 1],
  ...more,
});
const against = (a: string, b: string, score: number): Link => ({ ...supported(a, b, score), finding: 'against' });
const objectsOf = (ids: string): { id: string }[] => [...ids].map((id) => ({ id }));
const decision = (kind: Decision['kind'], members: string, at = '2026-01-01', words = ''): Decision => ({
  kind,
  members: [...members],
  by: 'A. Keeper',
  at,
  words,
});
const membersOf = (...args: Parameters<typeof groupObjects>): string[] =>
  groupObjects(...args).groups.map(({ members }) => members.join(''));

/** Ten objects, some pairs of them compared: one link alone ties from `alone` on, two from `two`, three from `three`. */
const compared = 900;
const untold = { ...errorDefaults, unshown: 1 };
const { alone, two } = thresholdsFor(1024, 10, copiesFalseSupport, untold);
const weak = (alone + two) / 2;

describe('what ties', () => {
  it('one weak link ties nothing, one strong link two objects', () => {
    const ten = objectsOf('ABCDEFGHIJ');
    expect(membersOf(ten, [supported('A', 'B', weak)], [], [], compared)).toEqual([]);
    expect(membersOf(ten, [supported('A', 'B', alone)], [], [], compared)).toEqual(['AB']);
    expect(groupObjects(ten, [supported('A', 'B', weak)], [], [], compared).waiting).toEqual([
      { a: 'A', b: 'B', score: weak },
    ]);
  });

  it('what a person keeps apart is not said to wait for more', () => {
    const links = [supported('A', 'B', alone), supported('C', 'D', alone), supported('A', 'C', weak)];
    const waiting = (...decisions: Decision[]): number =>
      groupObjects(objectsOf('ABCDEFGHIJ'), links, [], decisions, compared).waiting.length;
    expect([waiting(), waiting(decision('split', 'BD')), waiting(decision('split', 'AJ'))]).toEqual([1, 0, 1]);
  });

  it('two groups are joined by two independent links and by no fewer', () => {
    const ten = objectsOf('ABCDEFGHIJ');
    const apart = [supported('A', 'B', alone), supported('C', 'D', alone), supported('A', 'C', weak)];
    expect(membersOf(ten, apart, [], [], compared)).toEqual(['AB', 'CD']);
    expect(membersOf(ten, [...apart, supported('B', 'D', weak)], [], [], compared)).toEqual(['ABCD']);
  });

  it('weaker links tie by three', () => {
    const many = 60_000;
    const scores = thresholdsFor(65_536, 10, copiesFalseSupport, untold);
    const weaker = (scores.two + scores.three) / 2;
    expect(scores.two).toBeGreaterThan(scores.three);
    const ten = objectsOf('ABCDEFGHIJ');
    const apart = ['AB', 'AC', 'DE'].map((pair) => supported(pair[0], pair[1], scores.alone));
    const pairs = ['AD', 'BD', 'CE'].map((pair) => supported(pair[0], pair[1], weaker));
    expect(membersOf(ten, [...apart, ...pairs.slice(1)], [], [], many)).toEqual(['ABC', 'DE']);
    expect(membersOf(ten, [...apart, ...pairs], [], [], many)).toEqual(['ABCDE']);
  });

  it('a cast and its parent, and two scans of one object, are one witness', () => {
    const ten = objectsOf('ABCDEFGHIJ');
    const links = [supported('A', 'C', weak), supported('B', 'C', weak)];
    for (const relation of ['castOf', 'scansOf'] as const) {
      const known: Known[] = [{ a: 'B', b: 'A', relation }];
      const { groups } = groupObjects(ten, links, known, [], compared);
      expect(groups.map(({ members }) => members.join(''))).toEqual(['AB']);
      expect(groups[0].descent).toEqual([{ a: 'B', b: 'A', relation, by: 'stated' }]);
    }
    // With a third object of its own beside them they are tied.
    expect(
      membersOf(
        ten,
        [...links, supported('A', 'D', weak), supported('C', 'D', weak)],
        [{ a: 'B', b: 'A', relation: 'castOf' }],
        [],
        compared,
      ),
    ).toEqual(['ABCD']);
  });

  it('what reads as one descent is one witness, and is drawn', () => {
    const ten = objectsOf('ABCDEFGHIJ');
    const links = [
      supported('A', 'B', weak, { descent: 'oneDescent' }),
      supported('A', 'C', weak),
      supported('B', 'C', weak),
    ];
    const { groups } = groupObjects(ten, links, [], [], compared);
    expect(groups.map(({ members }) => members.join(''))).toEqual(['AB']);
    expect(groups[0].descent).toEqual([{ a: 'A', b: 'B', relation: 'oneDescent', by: 'read' }]);
    expect(
      membersOf(
        ten,
        links.map((link) => ({ ...link, descent: null })),
        [],
        [],
        compared,
      ),
    ).toEqual(['ABC']);
  });

  it('a fragment stays a possible member, of two groups if need be, and ties nothing', () => {
    const ten = objectsOf('ABCDEFGHIJ');
    const part = { imageLeft: [1, 0.3] as const };
    const links = [
      supported('A', 'B', alone),
      supported('C', 'D', alone),
      supported('A', 'F', alone, part),
      supported('C', 'F', alone, part),
    ];
    const { groups, single } = groupObjects(ten, links, [], [], compared);
    expect(groups.map(({ members }) => members.join(''))).toEqual(['AB', 'CD']);
    expect(groups.map(({ possibleMembers }) => possibleMembers)).toEqual([
      [{ id: 'F', with: 'A', score: alone }],
      [{ id: 'F', with: 'C', score: alone }],
    ]);
    expect(single).not.toContain('F');
  });

  it('obverse and reverse link their groups and join none', () => {
    const links = [supported('A', 'B', alone), supported('C', 'D', alone)];
    const { groups, sides } = groupObjects(
      objectsOf('ABCDEFGHIJ'),
      links,
      [{ a: 'D', b: 'A', relation: 'sidesOf' }],
      [],
      compared,
    );
    expect(groups).toHaveLength(2);
    expect(sides).toEqual([{ groups: ['A', 'C'], by: [['A', 'D']] }]);
  });
});

describe('what parts', () => {
  const ten = objectsOf('ABCDEFGHIJ');
  /** Two triangles with two weak links between them. */
  const joined = [
    ...['AB', 'AC', 'BC', 'DE', 'DF', 'EF'].map((pair) => supported(pair[0], pair[1], 2 * alone)),
    supported('A', 'D', weak),
    supported('B', 'E', weak),
  ];

  it('evidence against splits a group where it weighs more than the links that hold it', () => {
    expect(membersOf(ten, joined, [], [], compared)).toEqual(['ABCDEF']);
    expect(
      membersOf(ten, [...joined, against('C', 'F', -2 * alone), against('C', 'D', -2 * alone)], [], [], compared),
    ).toEqual(['ABC', 'DEF']);
  });

  it('weaker evidence against is shown', () => {
    const { groups } = groupObjects(ten, [...joined, against('C', 'F', -2.6)], [], [], compared);
    expect(groups.map(({ members }) => members.join(''))).toEqual(['ABCDEF']);
    expect(groups[0].against).toEqual([{ a: 'C', b: 'F', finding: 'against', score: -2.6 }]);
  });

  it('a split by hand holds against any evidence, a later join takes it back', () => {
    const split = decision('split', 'AB', '2026-02-01', 'Two hands.');
    const { groups, single } = groupObjects(ten, joined, [], [split], compared);
    const of = (id: string): string | undefined => groups.find(({ members }) => members.includes(id))?.id ?? id;
    expect(of('A')).not.toBe(of('B'));
    expect([...groups.flatMap(({ members }) => members), ...single].sort()).toEqual([...'ABCDEFGHIJ']);
    expect(membersOf(ten, joined, [], [split, decision('join', 'AB', '2026-03-01')], compared)).toEqual(['ABCDEF']);
    expect(membersOf(ten, joined, [], [decision('join', 'AB', '2026-03-01'), split], compared)).toEqual(['ABCDEF']);
  });

  it('a split holds between a cast and what it is said to be a cast of', () => {
    const known: Known[] = [{ a: 'B', b: 'A', relation: 'castOf' }];
    expect(membersOf(ten, [], known, [decision('split', 'AB')], compared)).toEqual([]);
  });

  it('a join by hand ties what no link ties, and is carried with name and note', () => {
    const list = [
      decision('join', 'GH', '2026-01-01', 'Same nick.'),
      decision('name', 'GH', '2026-01-02', 'Second seal of the town'),
    ];
    const [group] = groupObjects(ten, [], [], list, compared).groups;
    expect(group).toMatchObject({
      members: ['G', 'H'],
      strength: null,
      weakest: null,
      name: 'Second seal of the town',
    });
    expect(group.decisions).toEqual(list);
  });
});

describe('states', () => {
  const ten = objectsOf('ABCDEFGHIJ');
  const tied = (a: string, b: string, state?: Link['state']): Link => supported(a, b, alone, state ? { state } : {});

  it('stand in a partial order without steps that follow from others', () => {
    const links = [
      tied('A', 'B', 'subjectLater'),
      tied('B', 'C', 'subjectLater'),
      tied('A', 'C', 'subjectLater'),
      tied('C', 'D', 'subjectEarlier'),
    ];
    const [group] = groupObjects(ten, links, [], [], compared).groups;
    expect(group.states).toEqual([
      { earlier: 'A', later: 'B' },
      { earlier: 'B', later: 'C' },
      { earlier: 'D', later: 'C' },
    ]);
    expect(group.stateContradictions).toEqual([]);
  });

  it('that contradict one another are told and not ordered', () => {
    const links = [
      tied('A', 'B', 'subjectLater'),
      tied('B', 'C', 'subjectLater'),
      tied('A', 'C', 'subjectEarlier'),
      tied('C', 'D', 'subjectLater'),
    ];
    const [group] = groupObjects(ten, links, [], [], compared).groups;
    expect(group.states).toEqual([{ earlier: 'C', later: 'D' }]);
    expect(group.stateContradictions).toEqual([['A', 'B', 'C']]);
  });
});

/** A collection drawn from chance: links of all findings, fragments, relations and decisions. */
function drawn(random: Random, count: number) {
  const objects = Array.from({ length: count }, (_, k) => ({ id: `o${String(k).padStart(3, '0')}` }));
  const id = (): string => random.pick(objects).id;
  const links: Link[] = [];
  for (let k = 0; k < 3 * count; k++) {
    const [a, b] = [id(), id()].sort();
    if (a === b || links.some((link) => link.a === a && link.b === b)) continue;
    const finding = random.next() < 0.7 ? 'supported' : random.pick(['against', 'otherDesign', 'undecided'] as const);
    const score =
      finding === 'supported' ? random.between(2, 20) : finding === 'against' ? -random.between(2.5, 15) : 0;
    const share = (): number => (random.next() < 0.1 ? 0.3 : 1);
    const state = random.pick(['subjectEarlier', 'subjectLater', 'sameState', 'cannotJudge'] as const);
    const descent = random.next() < 0.1 ? random.pick(['oneDescent', 'subjectFromReference'] as const) : 'cannotJudge';
    links.push({ ...supported(a, b, score), finding, imageLeft: [share(), share()], state, descent });
  }
  const known: Known[] = Array.from({ length: count / 8 }, () => ({
    a: id(),
    b: id(),
    relation: random.pick(['castOf', 'sidesOf', 'scansOf'] as const),
  }));
  const decisions = Array.from(
    { length: count / 8 },
    (_, k): Decision => ({
      kind: random.pick(['join', 'split', 'name', 'note'] as const),
      members: [id(), id()],
      by: 'A',
      at: `2026-01-${String(1 + (k % 28)).padStart(2, '0')}`,
      words: `w${k}`,
    }),
  );
  return { objects, links, known, decisions, compared: links.length };
}

function shuffled<T>(list: readonly T[], random: Random): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [out[i], out[j]] = [out[j], out[i]];
  }
  return out;
}

describe('laws over collections drawn from chance', () => {
  const seeds = Array.from({ length: 15 }, (_, k) => 700 + k);

  it('the order of objects, links, relations and decisions does not matter', () => {
    for (const seed of seeds) {
      const random = seededRandom(seed);
      const { objects, links, known, decisions, compared: m } = drawn(random, 40);
      const there = groupObjects(
        shuffled(objects, random),
        shuffled(links, random),
        shuffled(known, random),
        shuffled(decisions, random),
        m,
      );
      expect(there, `seed ${seed}`).toEqual(groupObjects(objects, links, known, decisions, m));
    }
  });

  it('taking away a supporting link never joins, where nothing speaks against', () => {
    for (const seed of seeds) {
      const random = seededRandom(seed);
      const made = drawn(random, 24);
      const links = made.links
        .filter(({ finding }) => finding === 'supported')
        .map((link) => ({ ...link, imageLeft: null }));
      const whole = groupObjects(made.objects, links, made.known, [], made.compared);
      const groupOf = new Map(
        whole.groups.flatMap(({ id, members }) => members.map((member) => [member, id] as const)),
      );
      for (let k = 0; k < links.length; k += 3) {
        const less = groupObjects(made.objects, links.toSpliced(k, 1), made.known, [], made.compared);
        for (const { members } of less.groups)
          for (const member of members)
            expect(groupOf.get(member), `seed ${seed}`).toBe(groupOf.get(members[0]) ?? 'none');
      }
    }
  });

  it('a split by hand holds', () => {
    for (const seed of seeds) {
      const random = seededRandom(seed);
      const { objects, links, known, compared: m } = drawn(random, 40);
      const split = (pair: readonly string[]): Decision => ({ ...decision('split', ''), members: pair });
      const pairs = Array.from({ length: 6 }, () => [random.pick(objects).id, random.pick(objects).id]).filter(
        ([a, b]) => a !== b,
      );
      for (const { members } of groupObjects(objects, links, known, pairs.map(split), m).groups)
        for (const [a, b] of pairs) expect(members.includes(a) && members.includes(b), `seed ${seed}`).toBe(false);
    }
  });

  it('every object stands in one group, is a possible member, or is single', () => {
    for (const seed of seeds) {
      const { objects, links, known, decisions, compared: m } = drawn(seededRandom(seed), 40);
      const { groups, single } = groupObjects(objects, links, known, decisions, m);
      const members = groups.flatMap((group) => group.members);
      const possible = groups.flatMap((group) => group.possibleMembers.map(({ id }) => id));
      expect(new Set(members).size).toBe(members.length);
      expect([...new Set([...members, ...possible]), ...single].sort()).toEqual(objects.map(({ id }) => id).sort());
    }
  });

  it('a new object recomputes its neighbours only, with the result from scratch', () => {
    for (const seed of seeds) {
      const random = seededRandom(seed);
      const { objects, links, known, decisions, compared: m } = drawn(random, 40);
      const news = random.pick(objects).id;
      const without = <T>(list: readonly T[], names: (one: T) => readonly string[]): T[] =>
        list.filter((one) => !names(one).includes(news));
      const before = groupObjects(
        objects.filter(({ id }) => id !== news),
        without(links, ({ a, b }) => [a, b]),
        without(known, ({ a, b }) => [a, b]),
        without(decisions, ({ members }) => members),
        m,
      );
      // Whoever shares a link, a relation or a decision with it is touched by way of its component.
      const after = regroup(before, [news], objects, links, known, decisions, m);
      expect(after, `seed ${seed}`).toEqual(groupObjects(objects, links, known, decisions, m));
    }
  });
});
