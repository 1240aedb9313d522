import { createHash } from 'node:crypto';

// Draws the mutants that a run of `npm run mutants` tries: all of them take hours on two cores. A mutant is drawn by its place
// and a seed, so the same sample comes again; those not drawn are listed as invalid and count neither way.

/** Share drawn and seed, from the environment: MUTANTS_SHARE (0 to 1) and MUTANTS_SEED. */
const SHARE = Number(process.env.MUTANTS_SHARE ?? 1);
const SEED = process.env.MUTANTS_SEED ?? '1';

/** Share of the range of the digest at which a mutant lies; even over many mutants. */
function lot({ fileName, location, replacement }) {
  const { line, column } = location.start;
  const place = fileName.slice(fileName.search(/sim\/[^/]+\/[^/]+$/));
  const digest = createHash('sha256')
    .update(JSON.stringify([SEED, place, line, column, location.end, replacement]))
    .digest();
  return digest.readUInt32BE(0) / 2 ** 32;
}

function sample() {
  return {
    init: async () => undefined,
    group: async (mutants) => [mutants.map(({ id }) => id)],
    check: async (mutants) =>
      Object.fromEntries(mutants.map((mutant) => [mutant.id, lot(mutant) < SHARE ? { status: 'passed' } : { status: 'compileError', reason: 'not drawn' }])),
  };
}
sample.inject = [];

export const strykerPlugins = [{ kind: 'Checker', name: 'sample', factory: sample }];
