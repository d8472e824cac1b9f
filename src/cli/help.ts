/** Help texts, one a verb. They are the contract that people read, so they live in one place. */
const PLAN = `datestone plan: what a house of that age and kind holds, what fails in it, and the walk to find out

  datestone plan --built 1913 --foundation piers --place KY
  datestone plan --house house.json --minutes 150 --json
  datestone plan --batch houses.csv

The house
  --built YEAR          1913, 1910s, 1905-1915, "about 1900" or unknown
  --year-source WORD    assessor, listing, owner, deed, permit, map or datestone
  --foundation KIND     piers, posts, crawl, basement-stone, basement-brick, basement-block, basement-concrete,
                        slab, mixed or unknown
  --place PLACE         state code (KY), five-digit ZIP or unknown
  --coast DISTANCE      to salt water: within-3000-ft, farther or unknown
  --form FORM           detached, row or two-to-four
  --walls KIND          frame, brick, veneer, stone, plank, log, adobe or block
  --roof KIND           pitched or flat
  --units N  --storeys N  --area FT2
  --water town|well  --sewer town|septic  --fuel gas|oil|propane|electric|wood
  --occupied occupied|vacant  --utilities on|off
  --clue ID             what was seen, told or read (repeatable); not:ID if it was looked for and not met; ID=YEAR
                        for a dated paper or a nameplate; ID#2 or ID=YEAR#2 if met in the second of several dwellings
                        (--units); ID@PART, last of all, if met in an addition of the house file; "datestone clues"
                        lists them
  --client WORD         children, unsteady, thin-reserves, renovating, breathing or landlord (repeatable)
  --house FILE          all of this as JSON (docs/house.schema.json), additions too; options outrank the file
  --as-of YEAR          the year that counts as today (default: this year)

The visit
  --minutes N  --team N         minutes on site, people walking (1 to 4)
  --trainees N                  how many of them are trainees: the last ones by number
  --signed-off HAZARD           what trainees may meet alone: ladder, panel, crawl, roof, gas or attic (repeatable)
  --rain-hours N                hours since the last good rain
  --outdoor F  --indoor F       temperatures in Fahrenheit
  --snow yes  --windy yes       snow lies on the roof; too windy for a ladder
  --drought-days N              days since rain that soaked the ground
  --daylight-minutes N          minutes of daylight left at arrival
  --pin CHECK  --drop CHECK     always in; left out (repeatable; what guards life stays in)

  --json                one JSON object and nothing else (docs/plan.schema.json)
  --batch FILE          CSV whose columns are the option names, or a JSON object a line; "-" reads standard input.
                        One JSON line a house; a bad row becomes {"row":N,"error":"..."} and the rest go on.
                        A column "id" holds what you call the house; it comes back on its line.
                        In CSV, several clues or client words stand in one cell, divided by ";"
What is left out is unknown: it is summed over, never assumed.
`;

const FIND = `datestone find: look up a symptom, a material, a check, a word

  datestone find brown water
  datestone find --limit 3 "60 amp fuse box"
  datestone find --batch queries.txt
  datestone find cloth wiring --built 1913 --place KY

  --json                one JSON object: query, results (id, kind, title, score, answer, soon, check, odds, moved,
                        matched) and, where nothing is found, near (terms that are like what was typed)
  --limit N             at most N results (default 10)
  --batch FILE          a query a line; one JSON line each; "-" reads standard input
  --house FILE, --built, --place and the other options of "plan" that tell of a house: likelier entries stand a
                        little higher (by a quarter at most), and each says its odds there
`;

const SHOW = `datestone show: one entry in full

  datestone show knob-and-tube
  datestone show material/slab-on-grade

  --json                one JSON object: id and entries (an id may name entries of several kinds)
`;

const BASE = `datestone base: what the knowledge base holds and what is wrong with it

  --json                one JSON object: base (its hash), counts by kind, errors
`;

const CLUES = `datestone clues: the clues that "plan --clue" takes, with their plain words

  --system ID           only clues on that system
  --json                one JSON object: clues (id, say, system, where, dated, missable: not:ID can be told)
`;

const DATE = `datestone date: when a house was built, by its clues, and whether they sit well with a listed year

  datestone date --clue porcelain-knobs-seen --clue smooth-poured-walls-seen --place OH --listed 1930
  datestone date --clue rough-stone-base-seen --clue gray-block-base-seen@kitchen-wing --place OH

  --clue ID[=YEAR][#N][@PART]
                        something seen, told or read; once or more (datestone clues lists them). @PART: met in an
                        addition, which then gets years of its own; the main block is taken to be older. #N: met
                        in that dwelling of several (--units). not:ID: looked for and not met
  --place PLACE         state code (KY), five-digit ZIP or unknown
  --units N             dwellings in the house, 1 to 4
  --listed YEAR         a year from a record or a listing, 1800 on: is it to be doubted?
  --foundation, --walls what the house stands on and is made of, if known
  --as-of YEAR          the year that counts as today
  --json                one JSON object: likely (from, to, middle), decades, additions, drivers (each clue with what
                        it moved and the years without it) and record (timesLikelier, right, doubted, say)

The span is the smallest run of years with four fifths of the odds, before them the houses standing in the state.
Tell what you looked for and did not meet too (not:ID): without it the span is wider than it need be.
`;

const PLACE = `datestone place: what is known of a state or a ZIP, each figure with its grade and sources: decay index,
termites, frost, soil, radon, earthquake, salt, wind, snow

  datestone place KY
  datestone place 40202

  --json                one JSON object
`;

export const HELP: Readonly<Record<string, string>> = {
  plan: PLAN,
  find: FIND,
  show: SHOW,
  base: BASE,
  clues: CLUES,
  date: DATE,
  place: PLACE,
};

export const USAGE = `datestone: what a house of its age holds, what fails in it, and how to look

  datestone plan --built 1913 --foundation piers --place KY    a plan for a house
  datestone find WORDS                                         look something up
  datestone show ID                                            one entry in full
  datestone clues                                              what can be told of a house
  datestone date --clue ID --place KY --listed 1930            when a house was built
  datestone place STATE|ZIP                                    what is known of a place
  datestone base                                               what the knowledge base holds

Every verb explains itself: datestone plan --help
`;
