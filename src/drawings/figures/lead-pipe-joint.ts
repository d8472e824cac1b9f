import { cut, type Detail, edge, hidden, telling, thin, times } from '../detail.ts';

export const leadPipeJoint: Detail = {
  id: 'lead-pipe-joint',
  title: 'A wiped joint where a lead pipe meets brass',
  desc: 'A soft, dull pipe that swells into a smooth egg of solder, wiped by hand around a brass valve. A fresh scratch shines like silver; a magnet does not hold.',
  tell: 'A smooth bulb on a dull grey pipe. Scratch outside the paint-free metal with a coin, try a magnet; a water test in a laboratory says what is in the water.',
  shows: ['materials/lead-service-line', 'materials/lead-supply', 'failures/lead-from-service-line'],
  height: 216,
  marks: [
    edge('M96 216V176Q92 150 88 132Q82 104 98 92V76H134V92Q150 104 144 132Q140 150 136 176V216'),
    thin('M88 132Q116 140 144 132M86 112Q116 120 146 112'),
    cut('M92 46H140V76H92Z', 'metal'),
    cut('M98 10H134V46H98Z', 'metal'),
    edge('M84 20H148M116 10V2M100 2h32'),
    telling('M108 190l14 -6'),
    hidden('M106 216V96M126 216V96'),
    cut('M178 150h18v44h-18z', 'dense'),
    thin(times(3, (i) => `M172 ${156 + i * 14}h-14`)),
  ],
  notes: [
    { say: 'brass valve', to: [132, 40] },
    { say: 'egg of solder, wiped smooth', to: [145, 112] },
    { say: 'magnet does not hold', to: [188, 164] },
    { say: 'a scratch shines like silver', to: [118, 187] },
  ],
};
