import { type ColumnDefinitionBuilder, type Kysely, type Migration, sql } from 'kysely';

/** The two databases spoken to. */
export type DialectName = 'sqlite' | 'postgres';

/** What the two name differently. */
interface Types {
  readonly bytes: 'blob' | 'bytea';
  readonly real: 'real' | 'double precision';
  /** A number that the database gives each row. */
  own(column: ColumnDefinitionBuilder): ColumnDefinitionBuilder;
}

const types: Readonly<Record<DialectName, Types>> = {
  sqlite: { bytes: 'blob', real: 'real', own: (column) => column.primaryKey().autoIncrement() },
  postgres: {
    bytes: 'bytea',
    real: 'double precision',
    own: (column) => column.primaryKey().generatedByDefaultAsIdentity(),
  },
};

/** Every change of the tables, oldest first. One that was released is never edited: another follows it. */
export const migrationsFor = (dialect: DialectName): Record<string, Migration> => ({
  '001-catalogue': { up: (db) => catalogue(db, types[dialect]) },
  '002-evidence': { up: (db) => evidence(db, types[dialect]) },
  '003-jobs': { up: (db) => jobs(db, types[dialect]) },
  '004-removals': { up: (db) => removals(db, types[dialect]) },
  '005-places': { up: places },
  '006-surfaces-read': { up: surfacesRead },
  '007-behind': { up: behind },
});

const must = (column: ColumnDefinitionBuilder): ColumnDefinitionBuilder => column.notNull();
const ofScan = (column: ColumnDefinitionBuilder): ColumnDefinitionBuilder =>
  column.notNull().references('scans.id').onDelete('cascade');

async function catalogue(db: Kysely<unknown>, { bytes, real, own }: Types): Promise<void> {
  await db.schema
    .createTable('scans')
    .addColumn('id', 'integer', own)
    .addColumn('path', 'text', (column) => column.notNull().unique())
    .addColumn('stamp', 'text', must)
    .addColumn('shelfmark', 'text', must)
    .addColumn('kind', 'text', (column) =>
      column.notNull().check(sql`kind in ('matrix', 'mould', 'impression', 'cast')`),
    )
    .addColumn('seal', 'text')
    .addColumn('side', 'text')
    .addColumn('material', 'text')
    .addColumn('unit', 'text')
    .addColumn('scale_uncertainty', real, (column) => column.check(sql`scale_uncertainty > 0`))
    .addColumn('instrument', 'text')
    .addColumn('document_date', 'text')
    .addColumn('cast_of', 'text')
    .addColumn('sides_of', 'text')
    .addColumn('scan_of', 'text')
    .addColumn('state', 'text', (column) => column.notNull().check(sql`state in ('waiting', 'ready', 'failed')`))
    .addColumn('error', 'text')
    .addCheckConstraint('failed_says_why', sql`(state = 'failed') = (error is not null)`)
    .execute();
  await db.schema.createIndex('scans_by_shelfmark').on('scans').column('shelfmark').execute();
  const hash = (name: string) => (column: ColumnDefinitionBuilder) =>
    column.notNull().check(sql`length(${sql.ref(name)}) = 64`);
  await db.schema
    .createTable('faces')
    .addColumn('scan_id', 'integer', (column) => ofScan(column).primaryKey())
    .addColumn('source', 'text', hash('source'))
    .addColumn('relief', 'text', hash('relief'))
    .addColumn('picture', 'text', hash('picture'))
    .addColumn('local', 'text', hash('local'))
    .addColumn('global', bytes, must)
    .addColumn('index_version', 'integer', must)
    .addColumn('sense', 'text', (column) => column.notNull().check(sql`sense in ('intaglio', 'relief')`))
    .addColumn('width_mm', real, must)
    .addColumn('height_mm', real, must)
    .addColumn('image_mm2', real, must)
    .addColumn('prepared_at', real, must)
    .execute();
}

async function evidence(db: Kysely<unknown>, { real, own }: Types): Promise<void> {
  await db.schema
    .createTable('candidates')
    .addColumn('scan_id', 'integer', ofScan)
    .addColumn('other_id', 'integer', ofScan)
    .addColumn('place', 'integer', must)
    .addColumn('score', real, must)
    .addColumn('likely', 'integer', (column) => column.notNull().check(sql`likely in (0, 1)`))
    .addColumn('why', 'text', must)
    .addPrimaryKeyConstraint('candidates_key', ['scan_id', 'other_id'])
    .execute();
  await db.schema.createIndex('candidates_by_other').on('candidates').column('other_id').execute();
  await db.schema
    .createTable('links')
    .addColumn('a_id', 'integer', ofScan)
    .addColumn('b_id', 'integer', ofScan)
    .addColumn('finding', 'text', (column) =>
      column.notNull().check(sql`finding in ('supported', 'against', 'otherDesign', 'undecided')`),
    )
    .addColumn('question', 'text')
    .addColumn('strength', 'text', must)
    .addColumn('score', real)
    .addColumn('descent', 'text')
    .addColumn('state', 'text', must)
    .addColumn('image_left_a', real)
    .addColumn('image_left_b', real)
    .addColumn('by_tool', 'text', must)
    .addPrimaryKeyConstraint('links_key', ['a_id', 'b_id'])
    .addCheckConstraint('links_in_order', sql`a_id < b_id`)
    .execute();
  await db.schema.createIndex('links_by_second').on('links').column('b_id').execute();
  await db.schema
    .createTable('known')
    .addColumn('a_id', 'integer', ofScan)
    .addColumn('b_id', 'integer', ofScan)
    .addColumn('relation', 'text', (column) =>
      column.notNull().check(sql`relation in ('castOf', 'sidesOf', 'scansOf')`),
    )
    .addPrimaryKeyConstraint('known_key', ['a_id', 'b_id', 'relation'])
    .addCheckConstraint('known_of_two', sql`a_id <> b_id`)
    .execute();
  await db.schema
    .createTable('decisions')
    .addColumn('id', 'integer', own)
    .addColumn('kind', 'text', (column) => column.notNull().check(sql`kind in ('join', 'split', 'name', 'note')`))
    .addColumn('members', 'text', must)
    .addColumn('by_whom', 'text', must)
    .addColumn('at', 'text', must)
    .addColumn('words', 'text', must)
    .execute();
}

async function jobs(db: Kysely<unknown>, { real, own }: Types): Promise<void> {
  await db.schema
    .createTable('jobs')
    .addColumn('id', 'integer', own)
    .addColumn('kind', 'text', (column) => column.notNull().check(sql`kind in ('prepare', 'search', 'verify')`))
    .addColumn('a_id', 'integer', ofScan)
    .addColumn('b_id', 'integer', must)
    .addColumn('state', 'text', (column) =>
      column.notNull().check(sql`state in ('waiting', 'taken', 'done', 'failed')`),
    )
    .addColumn('tries', 'integer', (column) => column.notNull().defaultTo(0))
    .addColumn('worker', 'text')
    .addColumn('lease_until', real)
    .addColumn('error', 'text')
    .addUniqueConstraint('one_job', ['kind', 'a_id', 'b_id'])
    .addCheckConstraint('taken_by_one', sql`(state = 'taken') = (worker is not null)`)
    .execute();
  await db.schema.createIndex('jobs_by_scan').on('jobs').columns(['kind', 'a_id']).execute();
  await db.schema.createIndex('jobs_by_other').on('jobs').columns(['kind', 'b_id']).execute();
  await db.schema.createIndex('jobs_to_take').on('jobs').columns(['state', 'kind', 'id']).execute();
}

async function removals(db: Kysely<unknown>, { own }: Types): Promise<void> {
  await db.schema
    .createTable('removals')
    .addColumn('id', 'integer', own)
    .addColumn('path', 'text', must)
    .addColumn('shelfmark', 'text', must)
    .addColumn('by_whom', 'text', must)
    .addColumn('at', 'text', must)
    .addColumn('words', 'text', must)
    .execute();
}

/** Pairs that were verified before have none. */
async function places(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable('links').addColumn('places', 'text').execute();
}

/** Those of pairs that were verified before are read. */
async function surfacesRead(db: Kysely<unknown>): Promise<void> {
  const add = db.schema.alterTable('links');
  await add.addColumn('surfaces_read', 'integer', (column) => column.notNull().defaultTo(1)).execute();
}

/** What changes no finding waits until all that does is done; the next job is found without a look at the others. */
async function behind(db: Kysely<unknown>): Promise<void> {
  const add = db.schema.alterTable('jobs');
  await add.addColumn('behind', 'integer', (column) => column.notNull().defaultTo(0)).execute();
  await db.schema.createIndex('jobs_in_turn').on('jobs').columns(['state', 'kind', 'behind', 'id']).execute();
  await db.schema.dropIndex('jobs_to_take').execute();
}
