import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const builtInGutter: Detail = {
  id: 'built-in-gutter',
  title: 'A built-in gutter in the eaves, cut through',
  desc: 'The gutter is a wooden trough in the cornice, lined with soldered metal that runs up under the roofing. A seam has opened, and the wood and soffit below it are wet.',
  tell: 'Look at the soffit and the cornice from below: peeling paint, stains, a sag. The liner leaks into the eaves, not over the edge.',
  shows: ['materials/built-in-gutters', 'failures/rotted-built-in-gutter'],
  height: 244,
  marks: [
    cut('M232 10L120 76V94L232 28Z', 'timber'),
    thin('M232 2L118 68M232 6L118 72'),
    cut('M24 70H40V128H104V86H120V150H24Z', 'timber'),
    edge('M28 66H40V124H104V82L160 48'),
    telling('M72 124l6 3 6 -3'),
    cut('M10 70H24V156H60V168H24H10Z', 'timber'),
    cut(rect(60, 156, 112, 12), 'timber'),
    cut('M64 150q14 -10 28 0z', 'dots'),
    thin(times(4, (i) => `M${70 + i * 8} 130v${10 + i * 3}`)),
    cut(rect(172, 90, 34, 150), 'brick'),
    edge('M120 150H172'),
    thin('M44 104q10 -3 20 0t20 0t16 0'),
  ],
  notes: [
    { say: 'liner runs up under the roofing', to: [150, 54] },
    { say: 'water stands in the trough', to: [92, 104] },
    { say: 'open seam', to: [82, 125] },
    { say: 'wet wood inside the cornice', to: [94, 147] },
    { say: 'soffit stains first', to: [136, 164] },
  ],
};
