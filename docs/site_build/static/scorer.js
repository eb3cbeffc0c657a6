/* Search as people ask: results in the order in which a reader needs them, headings that hold the words
   of the question first, and pages that hold most of the words if none holds all of them. */

/* Pages to read before pages to look up, and these before lists made of the program. */
const ORDER = [
  [/^questions$/, 6],
  [/^(five-minutes|at-the-bench|in-a-program|your-own-data|glossary)$/, 3],
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

["mean", "means", "meaning", "please", "want", "way"].forEach((word) => stopwords.add(word));

/* More than half of the words of a question must stand in a heading that answers it. */
const ENOUGH = 0.55;
const HEADING = 20;

const stemsOf = (text) => {
  const stemmer = new Stemmer();
  const words = splitQuery(text.toLowerCase()).filter((word) => !stopwords.has(word));
  return new Set(words.map((word) => stemmer.stemWord(word)));
};

/* Every heading and every term of the glossary, with its words: [text, file, anchor, stems]. */
let places;
const allPlaces = () => {
  const { alltitles, docnames, indexentries } = Search._index;
  const terms = Object.entries(indexentries).map(([term, found]) => [
    term,
    found.filter(([file]) => docnames[file] === "glossary"),
  ]);
  return [...Object.entries(alltitles), ...terms].flatMap(([text, found]) =>
    found.map(([file, id]) => [text, file, id, stemsOf(text)]),
  );
};

/* The best heading of each page, as far as one holds enough of the words. */
const byHeading = (wanted) => {
  const { docnames, filenames, titles } = Search._index;
  const best = new Map();
  for (const [text, file, id, stems] of (places ??= allPlaces())) {
    const held = [...wanted].filter((word) => stems.has(word)).length / wanted.size;
    if (!(held >= ENOUGH)) continue;
    const score = HEADING * held + (5 * held * wanted.size) / stems.size;
    if ((best.get(file)?.[4] ?? 0) >= score) continue;
    const title = titles[file] === text ? text : `${titles[file]} > ${text}`;
    const anchor = titles[file] === text || id === null ? "" : `#${id}`;
    best.set(file, [docnames[file], title, anchor, null, score, filenames[file], SearchResultKind.title]);
  }
  return [...best.values()];
};

/* Pages that hold as many of the words as any does. */
const withMost = (ofAll, wanted, excluded) => {
  const counts = new Map();
  for (const word of wanted)
    for (const found of ofAll(new Set([word]), excluded)) {
      const [count, score] = counts.get(found[5]) ?? [0, 0];
      counts.set(found[5], [count + 1, score + found[4], found]);
    }
  const most = Math.max(0, ...[...counts.values()].map(([count]) => count));
  return [...counts.values()]
    .filter(([count]) => count === most)
    .map(([count, score, found]) => Object.assign([...found], { 4: score / count }));
};

const ofAllWords = Search.performTermsSearch;
Search.performTermsSearch = (wanted, excluded) => {
  const headings = byHeading(wanted);
  const there = new Set(headings.map((found) => found[5]));
  const all = ofAllWords(wanted, excluded);
  const pages = all.length ? all : withMost(ofAllWords, wanted, excluded);
  return [...headings, ...pages.filter((found) => !there.has(found[5]))];
};
