const LEVELS = ['', 'a little', 'seriously', 'gravely'];

type Stakes = { people: number; structure: number; water: number; money: number };

/** What a failure mode puts at stake, the gravest first: "people gravely, money a little". */
export function stakesInWords(stakes: Stakes): string {
  const names = [
    { name: 'people', level: stakes.people },
    { name: 'structure', level: stakes.structure },
    { name: 'keeping water out', level: stakes.water },
    { name: 'money', level: stakes.money },
  ];
  const words = names
    .filter((n) => n.level > 0)
    .sort((a, b) => b.level - a.level)
    .map((n) => `${n.name} ${LEVELS[Math.min(3, Math.round(n.level))] ?? ''}`);
  return words.length === 0 ? 'little' : words.join(', ');
}
