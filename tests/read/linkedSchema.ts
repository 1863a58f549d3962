import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const rdf = 'http://www.w3.org/1999/02/22-rdf-syntax-ns#';
const rdfs = 'http://www.w3.org/2000/01/rdf-schema#';
const crm = 'http://www.cidoc-crm.org/cidoc-crm/';

interface Ontology {
  readonly classes: ReadonlySet<string>;
  readonly properties: ReadonlySet<string>;
  /** By predicate, then subject: objects. */
  readonly says: ReadonlyMap<string, ReadonlyMap<string, readonly string[]>>;
}

/** Published vocabularies as N-Quads: the RDFS of CIDOC CRM 7.1.2, Dublin Core elements 1.1 and terms. */
const published: Ontology = (() => {
  const says = new Map<string, Map<string, string[]>>();
  for (const name of ['crm', 'dc11', 'dcterms']) {
    const file = require.resolve(`@vocabulary/${name}`).replace(/index\.js$/, `${name}.nq`);
    for (const [, s, p, o] of readFileSync(file, 'utf8').matchAll(/^<([^>]+)> <([^>]+)> <([^>]+)>/gm)) {
      const of = says.get(p) ?? new Map<string, string[]>();
      of.set(s, [...(of.get(s) ?? []), o]);
      says.set(p, of);
    }
  }
  const types = says.get(`${rdf}type`) ?? new Map<string, string[]>();
  const ofType = (...names: string[]): Set<string> =>
    new Set([...types].flatMap(([s, all]) => (all.some((each) => names.includes(each)) ? [s] : [])));
  return { classes: ofType(`${rdfs}Class`), properties: ofType(`${rdf}Property`), says };
})();

/** A name and all that it is a kind of. */
function above(name: string, by: 'subClassOf' | 'subPropertyOf'): Set<string> {
  const all = new Set([name]);
  for (const each of all) for (const up of published.says.get(`${rdfs}${by}`)?.get(each) ?? []) all.add(up);
  return all;
}
const told = (property: string, what: 'domain' | 'range'): readonly string[] =>
  published.says.get(`${rdfs}${what}`)?.get(property) ?? [];

type Linked = Record<string, unknown>;
const own = new Set(['@context', '@id', '@type', '@value', '@language']);

/**
 * What is wrong with a JSON-LD document by the published vocabularies that its context names: prefixes that are not declared, classes and properties
 * that no vocabulary has, subjects that are not of a property's domain, objects that are not of its range (RDF Schema 1.1, sections 3.1 and 3.2;
 * domains and ranges are those of CIDOC CRM), values of XML Schema types that are none.
 */
export function linkedFaults(document: Linked): string[] {
  const context = document['@context'] as Record<string, string>;
  const faults: string[] = [];
  const named = (short: string): string => {
    const [prefix, name] = short.split(/:(.*)/s);
    if (context[prefix] === undefined) faults.push(`${short}: the prefix is not declared`);
    return `${context[prefix]}${name}`;
  };
  const visit = (node: Linked): string[] => {
    const types = [node['@type']]
      .flat()
      .filter((each): each is string => typeof each === 'string')
      .map(named);
    for (const type of types)
      if (!published.classes.has(type)) faults.push(`${type} is no class of the published vocabularies`);
    for (const [key, value] of Object.entries(node)) {
      if (own.has(key)) continue;
      const property = named(key);
      if (!property.startsWith(rdfs) && !published.properties.has(property))
        faults.push(`${property} is no property of the published vocabularies`);
      const subject = new Set(types.flatMap((type) => [...above(type, 'subClassOf')]));
      for (const domain of told(property, 'domain'))
        if (property.startsWith(crm) && !subject.has(domain))
          faults.push(`${key} is said of ${types.join()}, not of ${domain}`);
      for (const each of [value].flat()) object(key, property, each);
    }
    return types;
  };
  const object = (key: string, property: string, value: unknown): void => {
    const ranges = property.startsWith(crm) ? told(property, 'range') : [];
    const literal = (range: string): boolean => range === `${rdfs}Literal` || range === `${crm}E62_String`;
    if (typeof value !== 'object' || value === null || '@value' in value) {
      if (typeof value === 'object' && value !== null) valueFaults(value as Linked);
      for (const range of ranges) if (!literal(range)) faults.push(`${key} has a text where ${range} is wanted`);
      return;
    }
    const types = new Set(visit(value as Linked).flatMap((type) => [...above(type, 'subClassOf')]));
    for (const range of ranges)
      if (literal(range) || !types.has(range)) faults.push(`${key} leads to ${[...types][0]}, not to ${range}`);
  };
  const valueFaults = (value: Linked): void => {
    const type = value['@type'];
    const text = String(value['@value']);
    if (type === 'xsd:decimal' && !/^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(text)) faults.push(`${text} is no decimal`);
    if (type === 'xsd:gYear' && !/^-?\d{4,}$/.test(text)) faults.push(`${text} is no year`);
    if (value['@language'] !== undefined && !/^[a-z]{2,3}(-\w+)*$/.test(String(value['@language'])))
      faults.push(`${value['@language']} is no language`);
  };
  visit(document);
  return faults;
}
