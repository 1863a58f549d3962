import { acrossDefaults, exaggeratedDefaults } from '../../../read/index.ts';
import type { CaptionWords, StepWords } from './types.ts';

const step: StepWords = (step, n, lamps) => {
  switch (step.do) {
    case 'fromStart':
      return 'de nouveau à partir du relief numérisé';
    case 'removeForm':
      return step.order === 1 ? 'plan soustrait' : 'forme du second degré soustraite';
    case 'formRemoved':
      return `forme au-dessus de ${n(step.wavelengthMm)} mm soustraite (franges aux fissures)`;
    case 'smooth':
      return `lissé au-dessous de ${n(step.wavelengthMm)} mm`;
    case 'bandPass':
      return `de ${n(step.fromMm)} à ${n(step.toMm)} mm conservé (franges aux fissures)`;
    case 'edgeAwareBase':
      return `lissé à ${n(step.sizeMm)} mm sauf aux arêtes de plus de ${n(step.edgeMm)} mm`;
    case 'edgeAwareDetail':
      return `détail plus fin que ${n(step.sizeMm)} mm, sans les arêtes de plus de ${n(step.edgeMm)} mm`;
    case 'localHeight':
      return `hauteur locale sur ${n(step.meanMm)} mm (franges aux fissures)`;
    case 'exaggerate':
      return `hauteurs × ${n(step.factor)}`;
    case 'light':
      return `lumière depuis ${lamps}${step.castShadows ? ', ombres portées' : ''}`;
    case 'lightAcross': {
      const { strokeMm, middleAzimuthDeg, heightDeg } = { ...acrossDefaults, ...step };
      return `éclairé en travers des traits de ${n(strokeMm)} mm, de ${n(middleAzimuthDeg)}° ± 90°, hauteur ${n(heightDeg)}°`;
    }
    case 'skyView':
      return `part de ciel visible dans un rayon de ${n(step.radiusMm)} mm`;
    case 'openness':
      return `ouverture dans un rayon de ${n(step.radiusMm)} mm`;
    case 'curvature':
      return `${{ ridges: 'crêtes', valleys: 'creux', both: 'crêtes et creux' }[step.show]} à ${n(step.scaleMm)} mm (franges aux fissures)`;
    case 'heights':
      return 'hauteurs en gris';
    case 'principalShading':
      return `composante principale ${step.component} de 16 ombrages, hauteur ${n(step.heightDeg ?? 35)}°`;
    case 'exaggeratedShading': {
      const { finestMm, scales } = { ...exaggeratedDefaults, ...step };
      return `ombrage exagéré, ${scales} échelles à partir de ${n(finestMm)} mm, ${lamps} (bord estompé aux fissures)`;
    }
  }
};

/** French. Common practice of catalogues, from memory. */
export const fr: CaptionWords = {
  decimal: ',',
  and: ' et ',
  looks: {
    'Faint legend': 'Légende effacée',
    'Raking light': 'Lumière rasante',
    'Low raking light with shadows': 'Lumière rasante basse avec ombres',
    'Across the strokes': 'En travers des traits',
    'Soft light': 'Lumière douce',
    'Light from everywhere': 'Lumière de tous côtés',
    'Every scale in raking light': 'Toutes les échelles en lumière rasante',
    'Ridges and valleys': 'Crêtes et creux',
  },
  simulated: { one: 'Numérisation simulée.', several: 'Numérisations simulées.' },
  times: (times) => (times === null ? 'Grandeur nature' : `${times} fois la grandeur nature`),
  atDpi: (size, dpi) => `${size}, ${dpi} points par pouce.`,
  piece: (size) => `la pièce ${size}`,
  formRemoved: 'La forme de chaque face est soustraite ; vide là où il n’y a pas de données.',
  light: {
    lamp: (azimuth, height, strength) =>
      `azimut ${azimuth}, hauteur ${height}${strength === null ? '' : `, intensité ${strength}`}`,
    plate: (lamps) =>
      `Éclairé depuis ${lamps.join(' et depuis ')} ; azimut dans le sens horaire depuis le haut de l’image, hauteur au-dessus du plan du sceau.`,
    from: (lamps) => `${lamps.length === 1 ? 'Une lampe' : `${lamps.length} lampes`} : ${lamps.join(' ; ')}`,
    evenSky: (radius) => `Lumière douce d’un ciel uniforme, horizon dans un rayon de ${radius} mm`,
    soft: (percent, radius) => `${percent} % de lumière douce, horizon dans un rayon de ${radius} mm`,
    castShadows: 'avec ombres portées',
    held: 'Les pentes plus claires que le champ sont retenues en deçà du blanc.',
    heightsTimes: (factor) => `hauteurs × ${factor}`,
    angles: 'Azimut dans le sens horaire depuis le haut de l’image, hauteur au-dessus du plan du sceau.',
    across: (stroke, from, to, middle, height) =>
      `Éclairé en travers de chaque trait (${stroke} mm), azimut entre ${from}° et ${to}° par ${middle}°, hauteur ${height}°`,
  },
  ways: {
    asItIs: 'tel qu’il est',
    mirrored: 'en miroir (aucun objet n’a cet aspect)',
    asImpression: 'montré comme son empreinte (retourné)',
    asMatrix: 'montré comme sa matrice (retourné)',
    turnedOver: 'montré retourné',
  },
  step,
  strip: {
    title: 'Légende déroulée',
    twoWays: 'les lettres sont tournées en deux sens, chaque arc est disposé pour être lu',
    facing: { inward: 'sens horaire, pied vers le centre', outward: 'sens antihoraire, pied vers le bord' },
    from: (degrees) => `à partir de ${degrees}° dans le sens horaire depuis midi sur l’empreinte`,
    letters: (mm) => `lettres hautes de ${mm} mm`,
    turnedOver: 'matrice retournée pour se lire comme son empreinte',
    asItIs: 'lu tel quel',
    plain: 'lumière simple',
    oneLamp: 'une lampe',
    strokeContrast: (value) => `contraste des traits ${value}`,
    composite: 'Composition',
    cross: (degrees) => `Une croix se voit à ${degrees}°.`,
    noCross: 'Aucune croix ne se voit.',
    startsWhole: 'La bande commence là où la légende brisée est de nouveau entière.',
    sized: (mm, dpi) => `Lettres hautes de ${mm} mm, ${dpi} points par pouce.`,
  },
  card: {
    simulated: 'Simulé : calculé, non numérisé.',
    sameLook: (turned) =>
      `La légende déroulée, sous le même rendu${turned ? ' ; la matrice retournée pour se lire comme son empreinte' : ''}.`,
    matrixTurned: 'la matrice retournée pour se lire comme son empreinte',
  },
  senses: {
    undecided: 'Le sens des lettres n’a pas pu être déterminé.',
    upright: 'Les lettres sont droites sur la bande.',
    upsideDown: 'Les lettres sont renversées : la légende est tournée de l’autre côté.',
    mirrored:
      'La légende est rétrograde : ses lettres se lisent en miroir sur l’empreinte. Elle est montrée telle quelle.',
    cutUnsure: 'L’endroit où les lettres changent de sens, si elles en changent, est douteux.',
    senseUnsure: 'Lesquels des arcs sont droits est douteux : tous peuvent être renversés.',
  },
  band: {
    confidence: (value) => `Bande trouvée avec une confiance de ${value}.`,
    doubts: {
      noInnerLine: 'Aucun filet intérieur n’a été vu.',
      noOuterLine: 'Aucun filet extérieur n’a été vu.',
      noLine: 'Aucun filet n’a été vu : la bande est là où des lettres semblent se trouver.',
      uncertain: 'La bande est incertaine : vérifier ses deux bords.',
    },
    noLetters: 'Rien qui ressemble à des lettres n’y a été reconnu : ce n’est peut-être pas une légende.',
  },
  composite: {
    refused: 'Aucune composition : il reste moins de deux témoins.',
    of: (parts) => `Composition de ${parts.length} témoins (${parts.join(', ')}) : aucun objet n’a seul cet aspect.`,
    contributors: (parts) =>
      `Qui donne le plus : ${parts.map(({ name, grey }) => `${name} gris ${grey}`).join(', ')} ; blanc aucun`,
    stateUntold: (names) =>
      `On ne peut juger si ${names.join(' et ')} ${names.length === 1 ? 'montre' : 'montrent'} le même état de la matrice.`,
    leftOut: (each) => `Écartés : ${each.join(' ; ')}.`,
    why: {
      notSupported: (finding) => `rien n’établit qu’il soit d’une même matrice avec le premier : ${finding}`,
      otherState: 'un autre état de la matrice',
      stateNotJudged: 'son état n’a pas été jugé',
      notInRegister: 'ne se superpose pas aux autres',
      copyOf: (other) => `une copie de ${other} : les deux comptent une fois`,
      oneDescentWith: (other) =>
        `d’une même filiation avec ${other}, on ignore lequel est la copie : les deux comptent une fois`,
    },
    findings: {
      supported: 'établi',
      against: 'contraire',
      otherDesign: 'une autre image',
      undecided: 'indécis',
      notJudged: 'non jugé',
    },
  },
  fragments: {
    title: (names, reference) =>
      `${names.length} fragments à leur place, chacun ajusté sur ${reference} : ${names.join(', ')}.`,
    undecided: (names) =>
      `Que ${names.join(' et ')} en ${names.length === 1 ? 'provienne' : 'proviennent'} n’est pas établi.`,
    share: (percent) =>
      `Ensemble ils conservent ${percent} % de la face sur laquelle ils sont ajustés ; son contour est en tirets.`,
    meet: ({ one, two, length, gap, gap90, step, within }) =>
      `Les bords de ${one} et de ${two} se font face sur ${length} mm : les numérisations s’arrêtent à ${gap} mm l’une de l’autre au milieu, à moins de ${gap90} mm pour neuf dixièmes ; ${
        step === null
          ? `tous deux sont à une même hauteur à ${within} mm près`
          : `${step.higher === 'one' ? one : two} est plus haut de ${step.by} mm`
      }.`,
    noEdges: 'Aucun ne touche un autre.',
    overlap: (one, two, mm2, depth) =>
      `${one} et ${two} portent tous deux les mêmes ${mm2} mm², jusqu’à ${depth} mm du bord : les fragments d’une même empreinte ne peuvent se recouvrir ; ils sont donc de deux empreintes.`,
    nothingFilled: 'Rien n’a été comblé entre eux.',
    name: 'fragments à leur place',
  },
};
