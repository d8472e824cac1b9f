export { indexBase } from './base-index.ts';
export { type Dating, dateHouse } from './belief/date-house.ts';
export type { House, HouseInput, PartInput } from './house/house.ts';
export { type Problem, resolveHouse } from './house/resolve.ts';
export { ACCEPTED, nearest } from './house/words.ts';
export { planHouse } from './plan.ts';
export type * from './plan-types.ts';
