import type { Detail } from '../detail.ts';
import { balloonFrame } from './balloon-frame.ts';
import { bareArmor } from './bare-armor.ts';
import { beamEndInMasonry } from './beam-end-in-masonry.ts';
import { bowedBlockWall } from './bowed-block-wall.ts';
import { builtInGutter } from './built-in-gutter.ts';
import { buriedKnobAndTube } from './buried-knob-and-tube.ts';
import { buriedSill } from './buried-sill.ts';
import { clayLateralRoots } from './clay-lateral-roots.ts';
import { clothCable } from './cloth-cable.ts';
import { crippleWall } from './cripple-wall.ts';
import { deckLedger } from './deck-ledger.ts';
import { doubleWytheBrick } from './double-wythe-brick.ts';
import { drumTrap } from './drum-trap.ts';
import { falseGround } from './false-ground.ts';
import { galvanizedClosingUp } from './galvanized-closing-up.ts';
import { gravityFurnace } from './gravity-furnace.ts';
import { halfRemovedChimney } from './half-removed-chimney.ts';
import { headFlashing } from './head-flashing.ts';
import { houseTrap } from './house-trap.ts';
import { kickoutFlashing } from './kickout-flashing.ts';
import { lateralBelly } from './lateral-belly.ts';
import { leadPipeJoint } from './lead-pipe-joint.ts';
import { leadToiletBend } from './lead-toilet-bend.ts';
import { notchedJoist } from './notched-joist.ts';
import { onePipeSteam } from './one-pipe-steam.ts';
import { orphanedWaterHeater } from './orphaned-water-heater.ts';
import { pierLean } from './pier-lean.ts';
import { plasterKeys } from './plaster-keys.ts';
import { plumberCutJoists } from './plumber-cut-joists.ts';
import { porcelainKnobs } from './porcelain-knobs.ts';
import { radiantSlab } from './radiant-slab.ts';
import { rafterSpread } from './rafter-spread.ts';
import { removedBearingWall } from './removed-bearing-wall.ts';
import { rubbleWallBulge } from './rubble-wall-bulge.ts';
import { rustedLintel } from './rusted-lintel.ts';
import { sashSection } from './sash-section.ts';
import { shimsOnLeaningPier } from './shims-on-leaning-pier.ts';
import { skipSheathing } from './skip-sheathing.ts';
import { splitBusPanel } from './split-bus-panel.ts';
import { stepCracks } from './step-cracks.ts';
import { stepFlashing } from './step-flashing.ts';
import { undrainedVeneer } from './undrained-veneer.ts';
import { unlinedFlue } from './unlined-flue.ts';

/** Every drawing of a thing where a look decides. */
export const DETAILS: readonly Detail[] = [
  balloonFrame,
  bareArmor,
  beamEndInMasonry,
  bowedBlockWall,
  builtInGutter,
  buriedKnobAndTube,
  buriedSill,
  clayLateralRoots,
  clothCable,
  crippleWall,
  deckLedger,
  doubleWytheBrick,
  drumTrap,
  falseGround,
  galvanizedClosingUp,
  gravityFurnace,
  halfRemovedChimney,
  headFlashing,
  houseTrap,
  kickoutFlashing,
  lateralBelly,
  leadPipeJoint,
  leadToiletBend,
  notchedJoist,
  onePipeSteam,
  orphanedWaterHeater,
  pierLean,
  plasterKeys,
  plumberCutJoists,
  porcelainKnobs,
  radiantSlab,
  rafterSpread,
  removedBearingWall,
  rubbleWallBulge,
  rustedLintel,
  sashSection,
  shimsOnLeaningPier,
  skipSheathing,
  splitBusPanel,
  stepCracks,
  stepFlashing,
  undrainedVeneer,
  unlinedFlue,
];

/** The drawings that stand on an entry's page. */
export const detailsOf = (kind: 'materials' | 'failures', id: string): Detail[] =>
  DETAILS.filter((d) => d.shows.includes(`${kind}/${id}`));
