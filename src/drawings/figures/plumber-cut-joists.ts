import { cut, type Detail, disc, edge, rect, telling, thin } from '../detail.ts';

export const plumberCutJoists: Detail = {
  id: 'plumber-cut-joists',
  title: 'Joists cut for a bath drain, and a sister that does not help',
  desc: 'Looking up at three joists under a bath. The middle joist is cut through for a toilet bend; a short board nailed beside it stops before the next support. A drain line is cut through the tops of the others.',
  tell: 'A cut joist needs headers to its neighbours or a full-length sister. A short board beside the gap carries nothing.',
  shows: ['failures/plumber-cut-joists', 'failures/rotted-floor-at-toilet'],
  height: 236,
  marks: [
    cut(rect(0, 24, 232, 22), 'timber'),
    cut(rect(0, 190, 232, 22), 'timber'),
    cut(rect(0, 107, 84, 22), 'timber'),
    cut(rect(152, 107, 80, 22), 'timber'),
    telling('M84 104v28M152 104v28'),
    cut(rect(50, 131, 64, 12), 'timber'),
    thin('M58 134v6M70 134v6M82 134v6M100 134v6'),
    edge(`${disc(118, 108, 24)}`),
    thin(disc(118, 108, 17)),
    edge('M109 131L104 232M127 131L122 232'),
    telling('M100 190h26M100 212h26'),
    thin('M0 10H232'),
  ],
  notes: [
    { say: 'joists from below', to: [208, 36] },
    { say: 'cut through for the toilet bend', to: [152, 112] },
    { say: 'short sister: ends in the air', to: [110, 138] },
    { say: 'next joist notched for the pipe', to: [126, 200] },
  ],
};
