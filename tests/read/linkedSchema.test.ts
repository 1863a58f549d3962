import { describe, expect, it } from 'vitest';
import { cardJsonLd } from '../../src/core/read/index.ts';
import { bareCard, fullCard } from './fullCard.ts';
import { linkedFaults } from './linkedSchema.ts';

const full = cardJsonLd(fullCard);
const label = { '@type': 'crm:E55_Type', 'rdfs:label': 'x' };

describe('JSON-LD by the published vocabularies of CIDOC CRM 7.1.2 and Dublin Core', () => {
  it('a card with everything in it, and one with nearly nothing', () => {
    expect(linkedFaults(full)).toEqual([]);
    expect(linkedFaults(cardJsonLd(bareCard))).toEqual([]);
  });

  it.each([
    ['a class that there is not', { '@type': 'crm:E22_Man-Made_Object' }, 'no class'],
    ['a property that there is not', { 'crm:P999_has': 'x' }, 'no property'],
    ['a prefix that is not declared', { 'schema:name': 'x' }, 'not declared'],
    ['a property of another class', { 'crm:P4_has_time-span': { '@type': 'crm:E52_Time-Span' } }, 'not of'],
    ['an object of another class', { 'crm:P43_has_dimension': label }, 'not to'],
    ['a text where a thing is wanted', { 'crm:P2_has_type': 'seal' }, 'is wanted'],
    ['a number that is none', { 'dc:date': { '@type': 'xsd:gYear', '@value': '40' } }, 'no year'],
  ])('would see %s', (_, change, fault) => {
    expect(linkedFaults({ ...full, ...change }).join('\n')).toContain(fault);
  });
});
