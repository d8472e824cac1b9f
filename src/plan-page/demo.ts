/** The house that a first visit shows. Nobody lives there. */
export const DEMO =
  'built=1904&year-source=listing&foundation=basement-stone&walls=frame&roof=pitched&storeys=2' +
  '&name.2=kitchen+ell&built.2=1957&foundation.2=slab&walls.2=frame&roof.2=pitched&storeys.2=1' +
  '&form=detached&area=1850&water=town&sewer=town&fuel=gas&occupied=occupied&place=PA&minutes=240&team=1&client=children';
