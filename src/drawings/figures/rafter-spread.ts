import { arrow, cut, type Detail, edge, hidden, rect, telling, thin } from '../detail.ts';

export const rafterSpread: Detail = {
  id: 'rafter-spread',
  title: 'Rafters that push the walls outward',
  desc: 'A section of an attic. The ceiling joists that tied the rafter feet have been cut or run the other way. The ridge has sunk, the rafter feet have slid outward, and the wall tops lean.',
  tell: 'From the street: a dip in the ridge and eaves that bow outward. In the attic: gaps at the rafter feet and nails pulled.',
  shows: ['failures/rafter-spread'],
  height: 224,
  marks: [
    hidden('M30 118L116 30L202 118'),
    cut('M14 124L110 50L116 60L26 130Z', 'timber'),
    cut('M218 124L122 50L116 60L206 130Z', 'timber'),
    cut('M26 130H40L50 220H36Z', 'timber'),
    cut('M206 130H192L182 220H196Z', 'timber'),
    telling('M26 124l10 8M206 124l-10 8'),
    cut(rect(56, 132, 8, 16), 'timber'),
    cut(rect(168, 132, 8, 16), 'timber'),
    hidden('M64 140H168'),
    arrow(34, 110, 8, 110),
    arrow(198, 110, 224, 110),
    arrow(116, 20, 116, 46),
    edge('M40 148H192'),
    thin('M62 132v16M170 132v16'),
  ],
  notes: [
    { say: 'ridge sinks', to: [116, 40] },
    { say: 'foot slides, nails pulled', to: [202, 128] },
    { say: 'tie cut out, or never there', to: [150, 140] },
    { say: 'wall top leans out', to: [190, 190] },
  ],
};
