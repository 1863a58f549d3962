import type { CardLanguage } from './languages.ts';
import { type SignName, signNames, signs } from './signs.ts';

/** The human words of a transcription's TEI file. Signs: their names in its declaration of characters. */
export interface TeiWords {
  readonly title: string;
  /** Before the name of an object. */
  readonly legend: string;
  readonly publication: string;
  readonly source: string;
  readonly readFrom: (file: string, simulated: boolean) => string;
  readonly conjecture: string;
  readonly transcription: string;
  readonly noSigns: string;
  readonly signs: Readonly<Record<SignName, string>>;
}

/** Common practice of editions, from memory. */
export const teiWords: Readonly<Record<CardLanguage, TeiWords>> = {
  en: {
    title: 'Legend of a seal',
    legend: 'Legend',
    publication: 'Unpublished working transcription.',
    source: 'Read from a surface scan.',
    readFrom: (file, simulated) => `Read from the surface scan ${file}${simulated ? ', which is simulated' : ''}.`,
    conjecture: 'conjecture',
    transcription: 'transcription',
    noSigns: 'No signs besides letters.',
    signs: Object.fromEntries(signNames.map((name) => [name, signs[name].words])) as Record<SignName, string>,
  },
  fr: {
    title: 'Légende d’un sceau',
    legend: 'Légende',
    publication: 'Transcription de travail, inédite.',
    source: 'Lu sur une numérisation de la surface.',
    readFrom: (file, simulated) => `Lu sur la numérisation ${file}${simulated ? ', qui est simulée' : ''}.`,
    conjecture: 'conjecture',
    transcription: 'transcription',
    noSigns: 'Aucun signe hors les lettres.',
    signs: {
      cross: 'croix',
      saltire: 'croix en sautoir',
      pellet: 'point',
      colon: 'deux points superposés',
      threePellets: 'trois points superposés',
      lozenge: 'losange',
      star: 'étoile',
      rosette: 'rosette',
      quatrefoil: 'quatrefeuille',
      crescent: 'croissant',
      lily: 'fleur de lis',
      leaf: 'feuille',
    },
  },
  de: {
    title: 'Umschrift eines Siegels',
    legend: 'Umschrift',
    publication: 'Unveröffentlichte Arbeitsabschrift.',
    source: 'Nach einer Aufnahme der Oberfläche gelesen.',
    readFrom: (file, simulated) => `Nach der Aufnahme ${file} gelesen${simulated ? ', die simuliert ist' : ''}.`,
    conjecture: 'Konjektur',
    transcription: 'Abschrift',
    noSigns: 'Keine Zeichen außer Buchstaben.',
    signs: {
      cross: 'Kreuz',
      saltire: 'Schrägkreuz',
      pellet: 'Punkt',
      colon: 'zwei Punkte übereinander',
      threePellets: 'drei Punkte übereinander',
      lozenge: 'Raute',
      star: 'Stern',
      rosette: 'Rosette',
      quatrefoil: 'Vierpass',
      crescent: 'Mondsichel',
      lily: 'Lilie',
      leaf: 'Blatt',
    },
  },
  es: {
    title: 'Leyenda de un sello',
    legend: 'Leyenda',
    publication: 'Transcripción de trabajo, inédita.',
    source: 'Leído en un escaneo de la superficie.',
    readFrom: (file, simulated) => `Leído en el escaneo ${file}${simulated ? ', que es simulado' : ''}.`,
    conjecture: 'conjetura',
    transcription: 'transcripción',
    noSigns: 'Ningún signo aparte de las letras.',
    signs: {
      cross: 'cruz',
      saltire: 'cruz en aspa',
      pellet: 'punto',
      colon: 'dos puntos superpuestos',
      threePellets: 'tres puntos superpuestos',
      lozenge: 'rombo',
      star: 'estrella',
      rosette: 'roseta',
      quatrefoil: 'cuadrifolio',
      crescent: 'creciente',
      lily: 'flor de lis',
      leaf: 'hoja',
    },
  },
};
