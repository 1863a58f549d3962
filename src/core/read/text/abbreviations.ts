import type { Item } from './transcription.ts';

/**
 * Abbreviations common in legends, with what they usually stand for, in the nominative or the case in which they mostly
 * occur. From memory, for suggestion only: the editor decides case and word.
 */
export const commonAbbreviations: readonly { readonly written: string; readonly words: readonly string[] }[] = [
  { written: "S'", words: ['S(igillum)'] },
  { written: 'S', words: ['S(igillum)', 'S(anctus)', 'S(ancti)'] },
  { written: 'SIG', words: ['SIG(illum)'] },
  { written: 'SIGILL', words: ['SIGILL(um)'] },
  { written: 'SECR', words: ['SECR(etum)'] },
  { written: "SECRET'", words: ['SECRET(um)'] },
  { written: 'CSIG', words: ['C(ontra)SIG(illum)'] },
  { written: 'SCI', words: ['S(an)C(t)I'] },
  { written: 'SCE', words: ['S(an)C(t)E'] },
  { written: 'BTE', words: ['B(ea)TE'] },
  { written: 'EPI', words: ['EP(iscop)I'] },
  { written: 'EPS', words: ['EP(iscopu)S'] },
  { written: 'ARCHIEPI', words: ['ARCHIEP(iscop)I'] },
  { written: 'ABBIS', words: ['ABB(at)IS'] },
  { written: 'PBRI', words: ['P(res)B(yte)RI'] },
  { written: 'CLICI', words: ['CL(er)ICI'] },
  { written: 'CAPLI', words: ['CAP(itu)LI'] },
  { written: 'CONVENT', words: ['CONVENT(us)'] },
  { written: 'ECCE', words: ['ECC(lesi)E'] },
  { written: 'ECCLIE', words: ['ECCL(es)IE'] },
  { written: 'MON', words: ['MON(asterii)'] },
  { written: 'DNI', words: ['D(omi)NI'] },
  { written: 'DNS', words: ['D(omi)N(u)S'] },
  { written: 'DNE', words: ['D(omi)NE'] },
  { written: 'DEI', words: ['DEI'] },
  { written: 'DI', words: ['D(e)I'] },
  { written: 'GRA', words: ['GR(ati)A'] },
  { written: 'XPI', words: ['XP(ist)I'] },
  { written: 'IHC', words: ['IH(esu)C'] },
  { written: 'MAG', words: ['MAG(istri)'] },
  { written: 'MGRI', words: ['M(a)G(ist)RI'] },
  { written: 'MIL', words: ['MIL(itis)'] },
  { written: 'COM', words: ['COM(itis)', 'COM(mune)'] },
  { written: 'COMVNITAT', words: ['COMVNITAT(is)'] },
  { written: 'CIVITAT', words: ['CIVITAT(is)'] },
  { written: 'VILL', words: ['VILL(e)'] },
  { written: 'BVRGEN', words: ['BVRGEN(sium)'] },
  { written: 'FIL', words: ['FIL(ii)'] },
  { written: 'VX', words: ['VX(oris)'] },
  { written: 'FRIS', words: ['FR(atr)IS'] },
  { written: 'FRM', words: ['FR(atru)M'] },
  { written: 'SOROR', words: ['SOROR(um)'] },
  { written: 'PRIOR', words: ['PRIOR(is)'] },
  { written: 'VICAR', words: ['VICAR(ii)'] },
  { written: 'OFFIC', words: ['OFFIC(ialitatis)'] },
  { written: 'THESAVR', words: ['THESAVR(arii)'] },
  { written: 'IOHIS', words: ['IOH(ann)IS'] },
  { written: 'WILLI', words: ['WILL(elm)I'] },
  { written: 'RIC', words: ['RIC(ardi)'] },
  { written: 'ROB', words: ['ROB(erti)'] },
  { written: 'THOM', words: ['THOM(e)'] },
  { written: '7', words: ['7(et)'] },
];

/** What the letters of a word (with its abbreviation mark, if any) may stand for, in Leiden signs. */
export function suggestionsFor(word: readonly Item[]): readonly string[] {
  const written = word.map((item) => (item.kind === 'letter' || item.kind === 'mark' ? item.text : '')).join('');
  const bare = written.replace(/['¯]/g, '');
  return commonAbbreviations
    .filter((entry) => entry.written === written || entry.written.replace("'", '') === bare)
    .flatMap((entry) => entry.words);
}
