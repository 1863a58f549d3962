import { acrossDefaults, exaggeratedDefaults } from '../../../read/index.ts';
import type { CaptionWords, StepWords } from './types.ts';

const step: StepWords = (step, n, lamps) => {
  switch (step.do) {
    case 'fromStart':
      return 'de nuevo desde el relieve escaneado';
    case 'removeForm':
      return step.order === 1 ? 'plano restado' : 'forma de segundo grado restada';
    case 'formRemoved':
      return `forma por encima de ${n(step.wavelengthMm)} mm restada (franjas en las grietas)`;
    case 'smooth':
      return `suavizado por debajo de ${n(step.wavelengthMm)} mm`;
    case 'bandPass':
      return `de ${n(step.fromMm)} a ${n(step.toMm)} mm conservado (franjas en las grietas)`;
    case 'edgeAwareBase':
      return `suavizado a ${n(step.sizeMm)} mm salvo en aristas de más de ${n(step.edgeMm)} mm`;
    case 'edgeAwareDetail':
      return `detalle más fino que ${n(step.sizeMm)} mm, sin aristas de más de ${n(step.edgeMm)} mm`;
    case 'localHeight':
      return `altura local sobre ${n(step.meanMm)} mm (franjas en las grietas)`;
    case 'exaggerate':
      return `alturas × ${n(step.factor)}`;
    case 'light':
      return `luz desde ${lamps}${step.castShadows ? ', sombras arrojadas' : ''}`;
    case 'lightAcross': {
      const { strokeMm, middleAzimuthDeg, heightDeg } = { ...acrossDefaults, ...step };
      return `iluminado a través de trazos de ${n(strokeMm)} mm, desde ${n(middleAzimuthDeg)}° ± 90°, altura ${n(heightDeg)}°`;
    }
    case 'skyView':
      return `parte de cielo visible en un radio de ${n(step.radiusMm)} mm`;
    case 'openness':
      return `apertura en un radio de ${n(step.radiusMm)} mm`;
    case 'curvature':
      return `${{ ridges: 'crestas', valleys: 'valles', both: 'crestas y valles' }[step.show]} a ${n(step.scaleMm)} mm (franjas en las grietas)`;
    case 'heights':
      return 'alturas en gris';
    case 'principalShading':
      return `componente principal ${step.component} de 16 sombreados, altura ${n(step.heightDeg ?? 35)}°`;
    case 'exaggeratedShading': {
      const { finestMm, scales } = { ...exaggeratedDefaults, ...step };
      return `sombreado exagerado, ${scales} escalas desde ${n(finestMm)} mm, ${lamps} (borde difuso en las grietas)`;
    }
  }
};

/** Spanish. Common practice of catalogues, from memory. */
export const es: CaptionWords = {
  decimal: ',',
  and: ' y ',
  looks: {
    'Faint legend': 'Leyenda borrosa',
    'Raking light': 'Luz rasante',
    'Low raking light with shadows': 'Luz rasante baja con sombras',
    'Across the strokes': 'A través de los trazos',
    'Soft light': 'Luz suave',
    'Light from everywhere': 'Luz de todos los lados',
    'Every scale in raking light': 'Todas las escalas con luz rasante',
    'Ridges and valleys': 'Crestas y valles',
  },
  simulated: { one: 'Escaneo simulado.', several: 'Escaneos simulados.' },
  times: (times) => (times === null ? 'Tamaño natural' : `${times} veces el tamaño natural`),
  atDpi: (size, dpi) => `${size}, ${dpi} puntos por pulgada.`,
  piece: (size) => `la pieza ${size}`,
  formRemoved: 'La forma de cada cara está restada; vacío donde no hay datos.',
  light: {
    lamp: (azimuth, height, strength) =>
      `acimut ${azimuth}, altura ${height}${strength === null ? '' : `, intensidad ${strength}`}`,
    plate: (lamps) =>
      `Iluminado desde ${lamps.join(' y desde ')}; acimut en el sentido de las agujas del reloj desde el borde superior de la imagen, altura sobre el plano del sello.`,
    from: (lamps) => `${lamps.length === 1 ? 'Una lámpara' : `${lamps.length} lámparas`} desde ${lamps.join('; ')}`,
    evenSky: (radius) => `Luz suave de un cielo uniforme, horizonte en un radio de ${radius} mm`,
    soft: (percent, radius) => `${percent} % de luz suave, horizonte en un radio de ${radius} mm`,
    castShadows: 'con sombras arrojadas',
    held: 'Las pendientes más claras que el campo se mantienen por debajo del blanco.',
    heightsTimes: (factor) => `alturas × ${factor}`,
    angles:
      'Acimut en el sentido de las agujas del reloj desde el borde superior de la imagen, altura sobre el plano del sello.',
    across: (stroke, from, to, middle, height) =>
      `Iluminado a través de cada trazo (${stroke} mm), acimut entre ${from}° y ${to}° por ${middle}°, altura ${height}°`,
  },
  ways: {
    asItIs: 'mostrado como es',
    mirrored: 'en espejo (ningún objeto es así)',
    asImpression: 'mostrado como su impronta (dado la vuelta)',
    asMatrix: 'mostrado como su matriz (dado la vuelta)',
    turnedOver: 'mostrado dado la vuelta',
  },
  step,
  strip: {
    title: 'Leyenda desarrollada',
    twoWays: 'las letras miran en dos sentidos, cada arco está dispuesto para leerse',
    facing: {
      inward: 'en el sentido de las agujas del reloj, pie hacia el centro',
      outward: 'en sentido contrario, pie hacia el borde',
    },
    from: (degrees) => `desde ${degrees}° en el sentido de las agujas del reloj a partir de las 12 en la impronta`,
    letters: (mm) => `letras de ${mm} mm de alto`,
    turnedOver: 'matriz dada la vuelta para leerse como su impronta',
    asItIs: 'leído como es',
    plain: 'luz sencilla',
    oneLamp: 'una lámpara',
    strokeContrast: (value) => `contraste de los trazos ${value}`,
    composite: 'Composición',
    cross: (degrees) => `Se ve una cruz a ${degrees}°.`,
    noCross: 'No se ve ninguna cruz.',
    startsWhole: 'La tira comienza donde la leyenda rota vuelve a estar entera.',
    sized: (mm, dpi) => `Letras de ${mm} mm de alto, ${dpi} puntos por pulgada.`,
  },
  card: {
    simulated: 'Simulado: calculado, no escaneado.',
    sameLook: (turned) =>
      `La leyenda desarrollada, con el mismo aspecto${turned ? '; la matriz dada la vuelta para leerse como su impronta' : ''}.`,
    matrixTurned: 'la matriz dada la vuelta para leerse como su impronta',
  },
  senses: {
    undecided: 'No se pudo saber hacia dónde miran las letras.',
    upright: 'Las letras están derechas en la tira.',
    upsideDown: 'Las letras están del revés: la leyenda mira al otro lado.',
    mirrored: 'La leyenda es retrógrada: sus letras se leen en espejo en la impronta. Se muestra como es.',
    cutUnsure: 'Es dudoso dónde cambian de sentido las letras, si lo hacen.',
    senseUnsure: 'Es dudoso cuáles de los arcos están derechos: todos pueden estar del revés.',
  },
  band: {
    confidence: (value) => `Banda encontrada con una confianza de ${value}.`,
    doubts: {
      noInnerLine: 'No se vio ninguna gráfila interior.',
      noOuterLine: 'No se vio ninguna gráfila exterior.',
      noLine: 'No se vio ninguna gráfila: la banda está donde parece haber letras.',
      uncertain: 'La banda es incierta: conviene revisar ambos bordes.',
    },
    noLetters: 'No se reconoció en ella nada parecido a letras: puede no ser una leyenda.',
  },
  composite: {
    refused: 'Ninguna composición: quedan menos de dos testigos.',
    of: (parts) => `Composición de ${parts.length} testigos (${parts.join(', ')}): ningún objeto por sí solo es así.`,
    contributors: (parts) =>
      `Quién da más: ${parts.map(({ name, grey }) => `${name} gris ${grey}`).join(', ')}; blanco ninguno`,
    stateUntold: (names) =>
      `No se puede juzgar si ${names.join(' y ')} ${names.length === 1 ? 'muestra' : 'muestran'} el mismo estado de la matriz.`,
    leftOut: (each) => `Excluidos: ${each.join('; ')}.`,
    why: {
      notSupported: (finding) => `no consta que sea de una misma matriz que el primero: ${finding}`,
      otherState: 'otro estado de la matriz',
      stateNotJudged: 'su estado no se ha juzgado',
      notInRegister: 'no coincide con los demás',
      copyOf: (other) => `una copia de ${other}: los dos cuentan una vez`,
      oneDescentWith: (other) =>
        `de una misma descendencia que ${other}, no se sabe cuál es la copia: los dos cuentan una vez`,
    },
    findings: {
      supported: 'respaldado',
      against: 'en contra',
      otherDesign: 'otro diseño',
      undecided: 'sin decidir',
      notJudged: 'no juzgado',
    },
  },
  fragments: {
    title: (names, reference) =>
      `${names.length} fragmentos en su sitio, cada uno ajustado a ${reference}: ${names.join(', ')}.`,
    undecided: (names) =>
      `No está decidido si ${names.join(' y ')} ${names.length === 1 ? 'procede' : 'proceden'} de él.`,
    share: (percent) => `Juntos conservan el ${percent} % de la cara a la que se ajustaron; su contorno va en trazos.`,
    meet: ({ one, two, length, gap, gap90, step, within }) =>
      `Los bordes de ${one} y ${two} se enfrentan a lo largo de ${length} mm: los escaneos terminan a ${gap} mm uno de otro en el medio, a menos de ${gap90} mm en nueve décimos; ${
        step === null
          ? `ambos están a una misma altura con ${within} mm de margen`
          : `${step.higher === 'one' ? one : two} está ${step.by} mm más alto`
      }.`,
    noEdges: 'Ninguno toca a otro.',
    overlap: (one, two, mm2, depth) =>
      `${one} y ${two} llevan ambos los mismos ${mm2} mm², hasta ${depth} mm del borde: los fragmentos de una misma impronta no pueden solaparse; son, pues, de dos.`,
    nothingFilled: 'Nada se ha rellenado entre ellos.',
    name: 'fragmentos en su sitio',
  },
};
