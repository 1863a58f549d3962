import { acrossDefaults, exaggeratedDefaults } from '../../../read/index.ts';
import type { CaptionWords, StepWords } from './types.ts';

const step: StepWords = (step, n, lamps) => {
  switch (step.do) {
    case 'fromStart':
      return 'wieder vom Relief, wie es aufgenommen wurde';
    case 'removeForm':
      return step.order === 1 ? 'Ebene abgezogen' : 'Form zweiter Ordnung abgezogen';
    case 'formRemoved':
      return `Form über ${n(step.wavelengthMm)} mm abgezogen (Säume an Rissen)`;
    case 'smooth':
      return `unter ${n(step.wavelengthMm)} mm geglättet`;
    case 'bandPass':
      return `${n(step.fromMm)} bis ${n(step.toMm)} mm behalten (Säume an Rissen)`;
    case 'edgeAwareBase':
      return `bei ${n(step.sizeMm)} mm geglättet, außer an Kanten über ${n(step.edgeMm)} mm`;
    case 'edgeAwareDetail':
      return `Einzelheiten feiner als ${n(step.sizeMm)} mm, ohne Kanten über ${n(step.edgeMm)} mm`;
    case 'localHeight':
      return `örtliche Höhe über ${n(step.meanMm)} mm (Säume an Rissen)`;
    case 'exaggerate':
      return `Höhen × ${n(step.factor)}`;
    case 'light':
      return `Licht von ${lamps}${step.castShadows ? ', mit Schlagschatten' : ''}`;
    case 'lightAcross': {
      const { strokeMm, middleAzimuthDeg, heightDeg } = { ...acrossDefaults, ...step };
      return `quer zu Strichen von ${n(strokeMm)} mm beleuchtet, von ${n(middleAzimuthDeg)}° ± 90°, Höhe ${n(heightDeg)}°`;
    }
    case 'skyView':
      return `sichtbarer Himmelsanteil innerhalb ${n(step.radiusMm)} mm`;
    case 'openness':
      return `Offenheit innerhalb ${n(step.radiusMm)} mm`;
    case 'curvature':
      return `${{ ridges: 'Grate', valleys: 'Täler', both: 'Grate und Täler' }[step.show]} bei ${n(step.scaleMm)} mm (Säume an Rissen)`;
    case 'heights':
      return 'Höhen als Grauwerte';
    case 'principalShading':
      return `Hauptkomponente ${step.component} aus 16 Schattierungen, Höhe ${n(step.heightDeg ?? 35)}°`;
    case 'exaggeratedShading': {
      const { finestMm, scales } = { ...exaggeratedDefaults, ...step };
      return `überhöhte Schattierung, ${scales} Stufen ab ${n(finestMm)} mm, ${lamps} (weicher Saum an Rissen)`;
    }
  }
};

/** German. Common practice of catalogues, from memory. */
export const de: CaptionWords = {
  decimal: ',',
  and: ' und ',
  looks: {
    'Faint legend': 'Schwache Umschrift',
    'Raking light': 'Streiflicht',
    'Low raking light with shadows': 'Flaches Streiflicht mit Schatten',
    'Across the strokes': 'Quer zu den Strichen',
    'Soft light': 'Weiches Licht',
    'Light from everywhere': 'Licht von allen Seiten',
    'Every scale in raking light': 'Alle Maßstäbe im Streiflicht',
    'Ridges and valleys': 'Grate und Täler',
  },
  simulated: { one: 'Simulierte Aufnahme.', several: 'Simulierte Aufnahmen.' },
  times: (times) => (times === null ? 'Natürliche Größe' : `${times}fache natürliche Größe`),
  atDpi: (size, dpi) => `${size}, ${dpi} Punkte je Zoll.`,
  piece: (size) => `das Stück ${size}`,
  formRemoved: 'Die Form jeder Seite ist abgezogen; leer, wo Daten fehlen.',
  light: {
    lamp: (azimuth, height, strength) =>
      `Azimut ${azimuth}, Höhe ${height}${strength === null ? '' : `, Stärke ${strength}`}`,
    plate: (lamps) =>
      `Licht von ${lamps.join(' und von ')}; Azimut im Uhrzeigersinn von der Oberkante des Bildes, Höhe über der Siegelebene.`,
    from: (lamps) => `${lamps.length === 1 ? 'Eine Lampe' : `${lamps.length} Lampen`} von ${lamps.join('; ')}`,
    evenSky: (radius) => `Weiches Licht von gleichmäßigem Himmel, Horizont innerhalb ${radius} mm`,
    soft: (percent, radius) => `${percent} % weiches Licht, Horizont innerhalb ${radius} mm`,
    castShadows: 'mit Schlagschatten',
    held: 'Hänge, die heller sind als der Grund, bleiben unter Weiß.',
    heightsTimes: (factor) => `Höhen × ${factor}`,
    angles: 'Azimut im Uhrzeigersinn von der Oberkante des Bildes, Höhe über der Siegelebene.',
    across: (stroke, from, to, middle, height) =>
      `Quer zu jedem Strich (${stroke} mm) beleuchtet, Azimut zwischen ${from}° und ${to}° über ${middle}°, Höhe ${height}°`,
  },
  ways: {
    asItIs: 'wie das Stück aussieht',
    mirrored: 'gespiegelt (so sieht kein Stück aus)',
    asImpression: 'als Abdruck gezeigt (umgewendet)',
    asMatrix: 'als Typar gezeigt (umgewendet)',
    turnedOver: 'umgewendet gezeigt',
  },
  step,
  strip: {
    title: 'Umschrift als Streifen',
    twoWays: 'die Buchstaben stehen in zwei Richtungen, jeder Bogen ist lesbar ausgelegt',
    facing: { inward: 'im Uhrzeigersinn, Fuß zur Mitte', outward: 'gegen den Uhrzeigersinn, Fuß zum Rand' },
    from: (degrees) => `ab ${degrees}° im Uhrzeigersinn von 12 Uhr auf dem Abdruck`,
    letters: (mm) => `Buchstaben ${mm} mm hoch`,
    turnedOver: 'das Typar umgewendet, so dass es sich wie sein Abdruck liest',
    asItIs: 'gelesen, wie es ist',
    plain: 'schlichtes Licht',
    oneLamp: 'eine Lampe',
    strokeContrast: (value) => `Strichkontrast ${value}`,
    composite: 'Zusammengesetzt',
    cross: (degrees) => `Ein Kreuz ist bei ${degrees}° zu sehen.`,
    noCross: 'Ein Kreuz ist nicht zu sehen.',
    startsWhole: 'Der Streifen beginnt, wo die gebrochene Umschrift wieder ganz ist.',
    sized: (mm, dpi) => `Buchstaben ${mm} mm hoch, ${dpi} Punkte je Zoll.`,
  },
  card: {
    simulated: 'Simuliert: berechnet, nicht aufgenommen.',
    sameLook: (turned) =>
      `Die Umschrift gerade ausgelegt, in derselben Ansicht${turned ? '; das Typar umgewendet, so dass es sich wie sein Abdruck liest' : ''}.`,
    matrixTurned: 'das Typar umgewendet, so dass es sich wie sein Abdruck liest',
  },
  senses: {
    undecided: 'Wie die Buchstaben stehen, war nicht zu erkennen.',
    upright: 'Die Buchstaben stehen auf dem Streifen aufrecht.',
    upsideDown: 'Die Buchstaben stehen auf dem Kopf: die Umschrift läuft anders herum.',
    mirrored:
      'Die Umschrift ist rückläufig: ihre Buchstaben stehen auf dem Abdruck spiegelbildlich. Sie ist gezeigt, wie sie ist.',
    cutUnsure: 'Wo die Buchstaben ihre Richtung wechseln, wenn sie es tun, ist zweifelhaft.',
    senseUnsure: 'Welche der Bögen aufrecht stehen, ist zweifelhaft: alle können auf dem Kopf stehen.',
  },
  band: {
    confidence: (value) => `Das Schriftband ist mit einer Sicherheit von ${value} gefunden.`,
    doubts: {
      noInnerLine: 'Eine innere Randlinie war nicht zu sehen.',
      noOuterLine: 'Eine äußere Randlinie war nicht zu sehen.',
      noLine: 'Eine Randlinie war nicht zu sehen: das Band liegt, wo Buchstaben zu stehen scheinen.',
      uncertain: 'Das Band ist unsicher: beide Ränder sind zu prüfen.',
    },
    noLetters: 'Nichts, was Buchstaben gleicht, war darin zu erkennen: vielleicht ist es keine Umschrift.',
  },
  composite: {
    refused: 'Nichts zusammengesetzt: weniger als zwei Zeugen bleiben.',
    of: (parts) =>
      `Aus ${parts.length} Zeugen zusammengesetzt (${parts.join(', ')}): kein einzelnes Stück sieht so aus.`,
    contributors: (parts) =>
      `Wer am meisten gibt: ${parts.map(({ name, grey }) => `${name} Grau ${grey}`).join(', ')}; weiß niemand`,
    stateUntold: (names) =>
      `Ob ${names.join(' und ')} denselben Zustand des Typars ${names.length === 1 ? 'zeigt' : 'zeigen'}, ist nicht zu beurteilen.`,
    leftOut: (each) => `Ausgelassen: ${each.join('; ')}.`,
    why: {
      notSupported: (finding) => `dass es von einem Typar mit dem ersten ist, ist nicht gestützt: ${finding}`,
      otherState: 'ein anderer Zustand des Typars',
      stateNotJudged: 'sein Zustand wurde nicht beurteilt',
      notInRegister: 'deckt sich nicht mit den anderen',
      copyOf: (other) => `eine Kopie von ${other}: beide zählen einmal`,
      oneDescentWith: (other) =>
        `von einer Abkunft mit ${other}, welches die Kopie ist, ist nicht bekannt: beide zählen einmal`,
    },
    findings: {
      supported: 'gestützt',
      against: 'dagegen',
      otherDesign: 'ein anderes Bild',
      undecided: 'unentschieden',
      notJudged: 'nicht beurteilt',
    },
  },
  fragments: {
    title: (names, reference) =>
      `${names.length} Bruchstücke an ihrem Ort, jedes an ${reference} eingepasst: ${names.join(', ')}.`,
    undecided: (names) =>
      `Ob ${names.join(' und ')} davon ${names.length === 1 ? 'stammt' : 'stammen'}, ist nicht entschieden.`,
    share: (percent) =>
      `Zusammen bewahren sie ${percent} % der Seite, an die sie eingepasst sind; deren Umriss ist gestrichelt.`,
    meet: ({ one, two, length, gap, gap90, step, within }) =>
      `Die Ränder von ${one} und ${two} liegen einander auf ${length} mm gegenüber: die Aufnahmen enden in der Mitte ${gap} mm voneinander, zu neun Zehnteln weniger als ${gap90} mm; ${
        step === null
          ? `beide stehen auf ${within} mm gleich hoch`
          : `${step.higher === 'one' ? one : two} steht ${step.by} mm höher`
      }.`,
    noEdges: 'Keine zwei von ihnen stoßen aneinander.',
    overlap: (one, two, mm2, depth) =>
      `${one} und ${two} tragen beide dieselben ${mm2} mm², bis zu ${depth} mm vom Rand: Bruchstücke eines Abdrucks können sich nicht überdecken, sie gehören also zu zweien.`,
    nothingFilled: 'Dazwischen ist nichts ergänzt.',
    name: 'Bruchstücke an ihrem Ort',
  },
};
