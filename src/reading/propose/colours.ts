const NAMES: readonly (readonly [from: number, name: string])[] = [
  [15, 'red'],
  [45, 'orange'],
  [70, 'yellow'],
  [160, 'green'],
  [200, 'turquoise'],
  [260, 'blue'],
  [330, 'purple'],
  [361, 'red'],
];

/** A colour as a person calls it, with its code: `yellow (FFFF00)`, `written in red (FF0000)`. */
export function colourName(colour: string): string {
  if (colour.startsWith('font ')) return `written in ${colourName(colour.slice(5)).replace(/^of the /, '')}`;
  if (!/^[0-9A-F]{6}$/.test(colour)) return `of the ${colour}`;
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
  const [most, least] = [Math.max(red, green, blue), Math.min(red, green, blue)];
  if (most - least < 24) return `grey (${colour})`;
  const turn =
    most === red
      ? (green - blue) / (most - least)
      : most === green
        ? 2 + (blue - red) / (most - least)
        : 4 + (red - green) / (most - least);
  const hue = (turn * 60 + 360) % 360;
  return `${NAMES.find(([from]) => hue < from)?.[1] ?? 'red'} (${colour})`;
}
