/* Search results: pages to read before pages to look up, and these before lists made of the program. */
const ORDER = [
  [/^(questions|five-minutes|at-the-bench|in-a-program|your-own-data)$/, 3],
  [/^(api|kernels|decisions)\//, -6],
  [/^(nomenclature|validation|errors|commands|job-keys|pack-keys)$/, -3],
];

var Scorer = {
  score: ([docname, , , , score, , kind]) => {
    if (kind === "object") return score;
    const [, shift] = ORDER.find(([place]) => place.test(docname)) ?? [null, 0];
    return score + shift;
  },
  objNameMatch: 11,
  objPartialMatch: 6,
  objPrio: { 0: 15, 1: 5, 2: -5 },
  objPrioDefault: 0,
  title: 15,
  partialTitle: 7,
  term: 5,
  partialTerm: 2,
};
