/** The words an input takes. Kept apart from the schemas so that the site can use them without the schema library. */
export const FOUNDATIONS = [
  'piers',
  'posts',
  'crawl',
  'basement-stone',
  'basement-brick',
  'basement-block',
  'basement-concrete',
  'slab',
  'mixed',
] as const;
export const WALLS = ['frame', 'brick', 'veneer', 'stone', 'plank', 'log', 'adobe', 'block'] as const;
export const ROOFS = ['pitched', 'flat'] as const;
export const FORMS = ['detached', 'row', 'two-to-four'] as const;
export const WATERS = ['town', 'well'] as const;
export const SEWERS = ['town', 'septic'] as const;
export const FUELS = ['gas', 'oil', 'propane', 'electric', 'wood'] as const;
/** How far salt water is: salt air bites hardest near the shore and is still met this far inland. */
export const COASTS = ['within-3000-ft', 'farther'] as const;
export const REGIONS = ['Northeast', 'Midwest', 'South', 'West'] as const;

/** What a place can bring to bear on a failure mode. */
export const PLACE_FACTORS = [
  'decay',
  'termites',
  'frost',
  'freeze-thaw',
  'expansive-soil',
  'salt',
  'quake',
  'snow',
  'wind',
  'radon',
] as const;

/** What in a check can hurt whoever does it without practice. */
export const HAZARDS = ['ladder', 'panel', 'crawl', 'roof', 'gas', 'attic'] as const;
