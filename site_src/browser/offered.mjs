// Which options go together? The same rules as in the calculators (choices.py, mending.py), so that what is forbidden
// is struck out at once, also while the calculators are still being fetched. tests/browser holds the two to each other.
//
// Pure functions over the page's data: {sizes, choices: [{name, default, asked_when, alternatives: [{name, minutes}]}],
// rules: [{when, needs, excludes, only_sizes, because}]}. A set of choices maps names to words; `size` is among them.

const SIZE = "size";
const MOST_CHANGES = 2; // so many ways out are named, as the calculators do
const MOST_AT_ONCE = 2; // a way out that changes more than two things is no way out

// Any of the mappings, and in it each name with one of its words; no mapping: always.
export const holds = (condition, chosen) =>
  condition.length === 0 ||
  condition.some((mapping) => Object.entries(mapping).every(([name, words]) => words.includes(chosen[name])));

// Each choice after those that decide whether it is asked.
function askedOrder(choices) {
  const known = new Set(choices.map((choice) => choice.name));
  const order = [];
  const done = new Set();
  let left = choices;
  while (left.length) {
    const ready = left.filter((choice) =>
      choice.asked_when.every((mapping) => Object.keys(mapping).every((name) => done.has(name) || !known.has(name))),
    );
    const next = ready.length ? ready : left;
    order.push(...next);
    for (const choice of next) done.add(choice.name);
    left = left.filter((choice) => !done.has(choice.name));
  }
  return order;
}

// What was chosen, with defaults filled in and choices that are not asked dropped.
export function completed({ choices }, chosen) {
  const found = { [SIZE]: chosen[SIZE] };
  for (const choice of askedOrder(choices)) {
    if (!holds(choice.asked_when, found)) continue;
    const word = chosen[choice.name];
    found[choice.name] = choice.alternatives.some((one) => one.name === word) ? word : choice.default;
  }
  return found;
}

function breaks(rule, chosen) {
  if (!holds(rule.when, chosen)) return false;
  if (rule.needs !== null) return !holds(rule.needs, chosen);
  if (rule.excludes !== null) return holds(rule.excludes, chosen);
  return rule.only_sizes !== null && !rule.only_sizes.includes(chosen[SIZE]);
}

export const broken = (offer, chosen) => offer.rules.filter((rule) => breaks(rule, completed(offer, chosen)));
export const allowed = (offer, chosen) => broken(offer, chosen).length === 0;

// Every alternative, and size, that would break a rule which is kept so far: {name, word, because, changes}, where
// `changes` are ways out, each a list of [name, word] to be changed along with it.
export function forbidden(offer, chosen) {
  const now = completed(offer, chosen);
  const already = new Set(broken(offer, now));
  const found = [];
  const words = [[SIZE, offer.sizes], ...offer.choices.map((choice) => [choice.name, choice.alternatives.map((one) => one.name)])];
  for (const [name, all] of words) {
    if (!(name in now)) continue;
    for (const word of all) {
      if (word === now[name]) continue;
      const tried = { ...chosen, ...now, [name]: word };
      const against = broken(offer, tried).filter((rule) => !already.has(rule));
      if (!against.length) continue;
      const because = [...new Set(against.map((rule) => rule.because || "These choices are not offered together."))];
      found.push({ name, word, because, changes: waysOut(offer, tried, name) });
    }
  }
  return found;
}

// The smallest changes that make the set allowed while `kept` stays: other choices first, the size only where no
// choice helps, and then the nearest.
function waysOut(offer, chosen, kept) {
  const full = completed(offer, chosen);
  const minutes = new Map(
    offer.choices.flatMap((choice) => choice.alternatives.map((one) => [`${choice.name} ${one.name}`, one.minutes])),
  );
  const steps = offer.choices
    .filter((choice) => choice.name !== kept && choice.name in full)
    .flatMap((choice) =>
      choice.alternatives
        .filter((one) => one.name !== full[choice.name])
        .map((one) => ({
          change: [choice.name, one.name],
          cost: Math.abs(one.minutes - minutes.get(`${choice.name} ${full[choice.name]}`)),
        })),
    );
  for (let depth = 1; depth <= MOST_AT_ONCE; depth += 1) {
    const ways = combinations(steps, depth)
      .filter((way) => new Set(way.map((step) => step.change[0])).size === depth)
      .filter((way) => allowed(offer, { ...chosen, ...Object.fromEntries(way.map((step) => step.change)) }))
      .sort((one, other) => cost(one) - cost(other));
    if (ways.length) return ways.slice(0, MOST_CHANGES).map((way) => way.map((step) => step.change));
    if (depth === 1 && kept !== SIZE) {
      const here = offer.sizes.indexOf(full[SIZE]);
      const size = offer.sizes
        .filter((one) => one !== full[SIZE] && allowed(offer, { ...chosen, [SIZE]: one }))
        .sort((one, other) => Math.abs(offer.sizes.indexOf(one) - here) - Math.abs(offer.sizes.indexOf(other) - here))[0];
      if (size !== undefined) return [[[SIZE, size]]];
    }
  }
  return [];
}

const cost = (way) => way.reduce((sum, step) => sum + step.cost, 0);

function combinations(steps, depth) {
  if (depth === 1) return steps.map((step) => [step]);
  return steps.flatMap((step, at) => combinations(steps.slice(at + 1), depth - 1).map((rest) => [step, ...rest]));
}
