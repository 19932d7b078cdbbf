// A nursery by the dice, the same for the same number: lots, their journal, open work, and what is done later.
//
// All of it is invented; genera and species are botanical names. The shape is the plain one a stranger would choose:
// rows with a key, so that the same facts can be written as JSON and compared in size and time.

export const TODAY = '2026-06-01';
const DAY_MS = 86_400_000;

/** The civil day so many days after TODAY. */
export const dayAt = (days) => new Date(Date.parse(TODAY) + days * DAY_MS).toISOString().slice(0, 10);

/** Whole numbers by chance (xorshift, 32 bits). */
export function dice(seed) {
  let state = (seed * 2_654_435_761 + 1) >>> 0 || 1;
  const roll = () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state;
  };
  const between = (least, most) => least + (roll() % (most - least + 1));
  return { between, of: (list) => list[between(0, list.length - 1)] };
}

const PLANTS = [
  'Cymbidium erythrostylum', 'Cymbidium insigne', 'Coelogyne ochracea', 'Dendrobium thyrsiflorum', 'Dendrobium loddigesii',
  'Epidendrum ibaguense', 'Gongora galeata', 'Laelia purpurata', 'Laelia sincorana', 'Maxillaria picta', 'Miltonia spectabilis',
  'Oncidium sphacelatum', 'Paphiopedilum spicerianum', 'Paphiopedilum hirsutissimum', 'Phaius tankervilleae',
  'Pleione formosana', 'Restrepia antennifera', 'Sophronitis coccinea', 'Stanhopea wardii', 'Trichopilia suavis',
];
const FORMS = ['', '', '', ' pale form', ' from seed', ' own cross', ' tall'];
const STAGES = ['backbulb', 'starter', 'growing', 'near-size', 'flowering', 'stock'];
const POTS = ['6', '8', '10', '13', '16', '19'];
const MEDIA = ['bark fine', 'bark medium', 'moss', 'bark and pumice', 'pumice'];
const WORK = ['repot', 'treatment', 'move', 'count', 'note', 'inspect'];
const CHORES = ['repot', 'treat', 'look', 'label', 'feed'];
const WORDS = [
  'firm', 'leaning', 'second', 'growth', 'scale', 'gone', 'near', 'door', 'dry', 'side', 'moss', 'thin', 'bulbs', 'round',
  'spike', 'early', 'tag', 'faded', 'ask', 'north', 'bench', 'bright', 'again', 'after', 'rain', 'keep', 'warm', 'white', 'roots',
];

function words(chance, letters) {
  let text = chance.of(WORDS);
  while (text.length < letters) text += ` ${chance.of(WORDS)}`;
  return text;
}
const stop = (chance) => `${chance.of(['North', 'South', 'Cold', 'Seed'])} house ${chance.between(1, 9)}, bench ${chance.between(1, 18)}`;
const lotKey = (number) => `B${String(number).padStart(6, '0')}`;
const journal = (chance, id, lot, kind, on) => ({
  id, lot, on, kind, by: chance.of(['ana', 'ben', 'col']), qty: chance.between(1, 30), what: words(chance, 28),
});
const chore = (chance, id, lot, due) => ({ id, lot, kind: chance.of(CHORES), due, done: 0 });

/** So many lots, six journal lines and three open chores each. */
export function book(lots, seed = 3) {
  const chance = dice(seed);
  const made = { lots: [], logs: [], tasks: [] };
  for (let number = 0; number < lots; number += 1) {
    const id = lotKey(number);
    made.lots.push({
      id,
      name: chance.of(PLANTS) + chance.of(FORMS),
      parent: number > 0 && chance.between(1, 10) <= 4 ? lotKey(chance.between(0, number - 1)) : null,
      count: chance.between(12, 50),
      location: stop(chance),
      stage: chance.of(STAGES),
      pot: chance.of(POTS),
      media: chance.of(MEDIA),
      acquired: dayAt(-chance.between(380, 2_200)),
      repotted: dayAt(-chance.between(1, 720)),
      treated: dayAt(-chance.between(1, 100)),
      notes: words(chance, 36),
    });
    WORK.forEach((kind, at) => made.logs.push(journal(chance, `${id}/j${at}`, id, kind, dayAt(-chance.between(1, 370)))));
    for (let at = 0; at < 3; at += 1) made.tasks.push(chore(chance, `${id}/c${at}`, id, dayAt(chance.between(-9, 370))));
  }
  return made;
}

/** What somebody does later, one after the other: a journal line, a change of a lot, a chore done and two new ones. */
export function deeds(made, count, who, seed = 5) {
  const chance = dice(seed + who.charCodeAt(0));
  const open = new Map(made.lots.map((lot) => [lot.id, []]));
  const places = new Map(made.lots.map((lot) => [lot.id, lot.location]));
  const counts = new Map(made.lots.map((lot) => [lot.id, lot.count]));
  for (const task of made.tasks) open.get(task.lot).push(task.id);
  const list = [];
  for (let number = 0; number < count; number += 1) {
    const lot = chance.of(made.lots);
    const kind = chance.of(WORK);
    const deed = { lot: lot.id };
    if (kind === 'count') {
      deed.delta = chance.of([-1, 1, 2]);
      if (counts.get(lot.id) + deed.delta < 5) deed.delta = 1;
      counts.set(lot.id, counts.get(lot.id) + deed.delta);
      deed.patch = { count: counts.get(lot.id) };
    } else if (kind === 'repot') deed.patch = { pot: chance.of(POTS), media: chance.of(MEDIA), repotted: TODAY };
    else if (kind === 'move') {
      const others = [0, 1, 2, 3].map(() => chance.of(made.lots).location).filter((place) => place !== places.get(lot.id));
      deed.patch = { location: others[0] };
      places.set(lot.id, deed.patch.location);
    }
    else if (kind === 'treatment') deed.patch = { treated: TODAY };
    else deed.patch = { notes: words(chance, 36) };
    deed.log = journal(chance, `${who}${number}/j`, lot.id, kind, TODAY);
    const chores = open.get(lot.id);
    deed.done = chores.shift() ?? null;
    deed.tasks = [0, 1].map((at) => chore(chance, `${who}${number}/c${at}`, lot.id, dayAt(chance.between(5, 220))));
    chores.push(...deed.tasks.map((task) => task.id));
    list.push(deed);
  }
  return list;
}

/** Keys of the open chores due before a day, by day and key: what any program has to answer. */
export function lateKeys(tasks, before) {
  const late = tasks.filter((task) => !task.done && task.due < before);
  late.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.id < b.id ? -1 : 1));
  return late.map((task) => task.id);
}
