// Where somebody begins who wants none of the shipped lessons: water, the usual column, nothing done.

/** JSON of a scenario that the reader takes, with as little in it as it takes. */
export function emptyBench(): Readonly<Record<string, unknown>> {
  return {
    title: 'My lab',
    purpose: 'What is to be separated, and what is to be collected.',
    ions: ['Co', 'Ni'],
    liquids: { water: { label: 'water', HCl_M: 0 } },
  };
}
