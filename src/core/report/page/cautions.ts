import { list, section } from './html.ts';

/** What a comparison of surfaces cannot say, and what must not be done for its sake. */
const cautions = [
  'Two surfaces say nothing about whether a document is authentic, who held the wax, when it was sealed, or what the metal is; nor can they show two things to be the same in every respect.',
  'A faithful cast of a matrix leaves the surface that the matrix leaves and can pass every test on this page. What is said here of a matrix is therefore said of this matrix or a faithful copy of it.',
  'Where the wax did not fill the engraving, is lost, or was not scanned, the absence of a mark is no evidence. The hatching and the covered share say where that is.',
  'Light enters translucent wax before it returns. Such scans are blurred, and the blur can be taken for wear.',
  'Grey in the map means that no difference could be measured there. It does not mean that there is none.',
  'Finger marks in historic wax may belong to somebody who handled it lately, and to a living person: no ridge patterns are extracted.',
  'A closed surface of a matrix at full resolution is a working seal. This report carries pictures, sections and numbers, and no surface.',
  'None of this asks for the object to be touched. No contact, no moulding compound and no spray on historic wax: handling is for the holding institution’s conservator to decide.',
] as const;

export const cautionsSection = (): string => section('cautions', 'Cautions', list(cautions));
