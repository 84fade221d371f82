// A driver of two coils from behind, and how its four terminals go to the amplifier.

export type TerminalWay = 'series' | 'parallel' | 'one' | 'turned';

const terminals = { a1: [58, 38], b1: [58, 66], a2: [182, 38], b2: [182, 66], p: [98, 138], m: [142, 138] } as const;

const ways: Record<TerminalWay, readonly [kind: 'plus' | 'minus' | 'jump' | 'jump2', d: string][]> = {
  series: [
    ['plus', 'M98 138V118H22V38H58'],
    ['jump', 'M58 66V96Q58 104 66 104H196Q214 104 214 92V48Q214 38 204 38H182'],
    ['minus', 'M142 138V118H182V66'],
  ],
  parallel: [
    ['plus', 'M98 138V118H14V38H58'],
    ['jump', 'M58 38V16Q58 6 68 6H200Q222 6 222 20V38H182'],
    ['minus', 'M142 138V118H182V66'],
    ['jump2', 'M58 66V90Q58 108 70 108H176Q182 108 182 96V66'],
  ],
  one: [
    ['plus', 'M98 138V118H22V38H58'],
    ['minus', 'M142 138V110H58V66'],
  ],
  turned: [
    ['plus', 'M98 138V118H22V38H58'],
    ['jump', 'M58 66V92Q58 98 64 98H176Q182 98 182 90V66'],
    ['minus', 'M142 138V112H222V38H182'],
  ],
};

const bump = (x: number, side: 0 | 1) => {
  const sweep = side === 0 ? 1 : 0;
  const arc = (height: number) => `a6 4.7 0 0 ${sweep} 0 ${height}`;
  return `M${x} 38${arc(9.3)}${arc(9.3)}${arc(9.4)}`;
};

export function TerminalPicture({ way, amplifier, label }: { way: TerminalWay; amplifier: string; label: string }) {
  const coil = (side: 0 | 1) => {
    const [terminal, x] = side === 0 ? [58, 80] : [182, 160];
    return `M${terminal} 38H${x}M${terminal} 66H${x}${bump(x, side)}`;
  };
  return (
    <svg className="rear" viewBox="0 0 240 158" role="img" aria-label={label}>
      <circle cx="120" cy="54" r="50" className="back" />
      <circle cx="120" cy="54" r="31" className="back2" />
      <path className="co" d={coil(0)} />
      <path className={way === 'one' ? 'dead' : 'co'} d={coil(1)} />
      <text x="98" y="57" className="n">
        1
      </text>
      <text x="142" y="57" className="n">
        2
      </text>
      <rect x="76" y="126" width="88" height="26" rx="2" className="am2" />
      <text x="120" y="144" className="n">
        {amplifier}
      </text>
      {ways[way].map(([kind, d]) => (
        <path key={d} className={`w ${kind}`} d={d} />
      ))}
      {Object.entries(terminals).map(([name, [x, y]]) => {
        const plus = name.startsWith('a') || name === 'p';
        return (
          <g key={name}>
            <circle cx={x} cy={y} r="7.5" className={`t${plus ? ' plus-end' : ''}`} />
            <path className="sg" d={`M${x - 3.5} ${y}h7${plus ? `M${x} ${y - 3.5}v7` : ''}`} />
          </g>
        );
      })}
    </svg>
  );
}
