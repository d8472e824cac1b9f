/** One item of the housing survey and the failure modes that it speaks of. */
export interface ProblemItem {
  id: string;
  title: string;
  /** Columns of the survey's file. A follow-up (`kind`) is asked only of those who said yes to `first`. */
  ask: { first: string; kind: string | null };
  /** What the item asks for: a thing to be seen, or something that happened in the last months. */
  kind: 'sight' | 'event';
  /** Failure modes any of which would make an occupant say yes. */
  failures: string[];
  why: string;
}

/** How the survey's words link to our failure modes. Occupants answered, so a failure mode that can't be seen or felt
 * without tools is not named. The survey asks for the worst of it (an open crack wider than a dime, a patch of paint larger than a sheet
 * of paper), the inspector's finding is wider: that difference is the fitted share that is reported. */
export const PROBLEM_ITEMS: ProblemItem[] = [
  {
    id: 'foundation',
    title: 'Foundation crumbling, open cracks or holes',
    ask: { first: 'ecrumb', kind: null },
    kind: 'sight',
    failures: [
      'step-cracks-in-foundation',
      'bowed-block-wall',
      'mortar-washed-out',
      'rubble-wall-bulge',
      'slab-cracks-heave',
      'settled-pier',
      'leaning-pier',
    ],
    why: 'every way in which a wall, a slab or a pier opens or loses its mortar',
  },
  {
    id: 'sagging-roof',
    title: 'Sagging roof',
    ask: { first: 'esagr', kind: null },
    kind: 'sight',
    failures: ['sagging-roof-frame', 'rafter-spread'],
    why: 'a ridge that dips and rafters that spread look alike from the street',
  },
  {
    id: 'hole-in-roof',
    title: 'Hole in the roof',
    ask: { first: 'eholer', kind: null },
    kind: 'sight',
    failures: ['missing-roofing', 'decayed-wood-roof', 'failing-slates', 'sagging-roof-frame'],
    why: 'coverings that open to the boards when left, and frames that leaks have rotted until they sag',
  },
  {
    id: 'missing-roofing',
    title: 'Missing roofing material',
    ask: { first: 'emissr', kind: null },
    kind: 'sight',
    failures: ['missing-roofing', 'failing-slates', 'slipped-tile-worn-felt', 'broken-asbestos-cement-roof'],
    why: 'pieces gone, of any covering laid in pieces',
  },
  {
    id: 'missing-siding',
    title: 'Missing bricks or siding',
    ask: { first: 'emissw', kind: null },
    kind: 'sight',
    failures: [
      'rotted-wood-siding',
      'loose-siding-panels',
      'loose-brick-veneer',
      'spalled-brick',
      'broken-asbestos-cement-siding',
    ],
    why: 'boards, panels, shingles or bricks that come off when they fail',
  },
  {
    id: 'sloping-walls',
    title: 'Outside walls slope, lean or buckle',
    ask: { first: 'eslopw', kind: null },
    kind: 'sight',
    failures: ['leaning-or-bowed-wall'],
    why: 'the same thing in our words',
  },
  {
    id: 'broken-windows',
    title: 'Broken windows',
    ask: { first: 'ebroke', kind: null },
    kind: 'sight',
    failures: ['broken-glass', 'rusted-steel-casement'],
    why: 'broken panes, and steel windows whose rust breaks them',
  },
  {
    id: 'cracks',
    title: 'Open cracks in inside walls or ceilings',
    ask: { first: 'cracks', kind: null },
    kind: 'sight',
    failures: ['recurring-plaster-cracks', 'plaster-ceiling-letting-go'],
    why: 'cracks wider than a dime, or a ceiling that parts from its lath',
  },
  {
    id: 'peeling',
    title: 'Broken plaster or peeling paint, larger than 8 by 11 inches',
    ask: { first: 'bigp', kind: null },
    kind: 'sight',
    failures: ['peeling-ceiling-paint', 'plaster-ceiling-letting-go'],
    why: 'inside surfaces that come off in sheets',
  },
  {
    id: 'roof-leak',
    title: 'Water from outside through the roof, last 12 months',
    ask: { first: 'leak', kind: 'rleak' },
    kind: 'event',
    failures: [
      'worn-asphalt-roof',
      'failing-low-slope-roof',
      'decayed-wood-roof',
      'rusted-metal-roof',
      'missing-roofing',
      'leaking-roof-penetration',
      'rusted-valley',
      'chimney-top-leak',
      'failed-wall-flashing',
      'ice-dams',
    ],
    why: 'coverings past their life and every joint of the roof that lets water in',
  },
  {
    id: 'wall-leak',
    title: 'Water from outside through walls, windows or doors, last 12 months',
    ask: { first: 'leak', kind: 'wleak' },
    kind: 'event',
    failures: [
      'missing-head-flashing',
      'wet-door-threshold',
      'rotted-window-sills',
      'unflashed-openings-under-cladding',
      'cracked-wet-stucco',
    ],
    why: 'openings and joints of the wall without working metal',
  },
  {
    id: 'basement-leak',
    title: 'Water from outside into the basement, last 12 months',
    ask: { first: 'leak', kind: 'bleak' },
    kind: 'event',
    failures: ['basement-seepage'],
    why: 'the same thing in our words; of all houses, with a basement or without',
  },
  {
    id: 'pipe-leak',
    title: 'Leak from pipes inside, last 12 months',
    ask: { first: 'ileak', kind: 'pileak' },
    kind: 'event',
    failures: [
      'copper-pinholes',
      'galvanized-leaks',
      'polybutylene-fitting-failure',
      'cpvc-brittle',
      'brass-dezincification',
      'hub-joints-leaking',
      'cast-iron-stack-rusted-through',
      'hydronic-leak',
      'leak-at-fixture',
    ],
    why: 'every supply, drain or heating pipe and every joint at a fixture that leaks where it is seen',
  },
  {
    id: 'breaker-trips',
    title: 'Fuse blown or breaker tripped, last 3 months',
    ask: { first: 'ifblow', kind: null },
    kind: 'event',
    failures: ['overloaded-small-service', 'loose-branch-neutral', 'damaged-cable'],
    why: 'a service too small and faults of a circuit; most trips are of use, in sound wiring',
  },
  {
    id: 'sewage',
    title: 'Sewage breakdown, last 3 months',
    ask: { first: 'ifsew', kind: null },
    kind: 'event',
    failures: [
      'slow-main-drain',
      'lateral-roots-and-offsets',
      'lateral-belly',
      'fiber-lateral-deformed',
      'septic-field-failed',
    ],
    why: 'every way in which the drain to the street or the field stops',
  },
  {
    id: 'rodents',
    title: 'Signs of mice or rats',
    ask: { first: 'evrod', kind: null },
    kind: 'sight',
    failures: ['rodents-in-house'],
    why: 'the same thing in our words',
  },
];
