import type { EditSide, How, Scope, Spot, What } from './edit.js';
import { FACTS } from './facts.js';

/** A product of the algebra without its place: what is changed, how, over what, on which side. */
export interface Product {
  readonly what: What;
  readonly how: How;
  readonly scope: Scope;
  readonly side: EditSide;
}

const FACT_HOWS: readonly How[] = ['missing', 'other', 'exchanged', 'shifted', 'constant', 'repeated', 'reversed', 'moved'];
const FRAME_SCOPES: readonly Scope[] = ['page', 'issue', 'run', 'reel', 'title', 'batch'];
const ISSUE_SCOPES: readonly Scope[] = ['issue', 'run', 'reel', 'title', 'batch'];
/** Over one thing nothing can be constant, reversed or moved. */
const NEED_SEVERAL: readonly How[] = ['constant', 'reversed', 'moved'];
/** Facts in reverse or out of place over a whole reel or more are no slip that anyone makes. */
const NOT_WIDE: readonly How[] = ['reversed', 'moved', 'repeated'];
const WIDE: readonly Scope[] = ['reel', 'title', 'batch'];

const factProducts: readonly Product[] = (Object.keys(FACTS) as (keyof typeof FACTS)[]).flatMap((what) =>
  FACT_HOWS.flatMap((how) =>
    (FACTS[what].of === 'frame' ? FRAME_SCOPES : ISSUE_SCOPES).flatMap((scope) =>
      FACTS[what].sides.flatMap((side): Product[] => {
        const single = scope === 'page' || (scope === 'issue' && FACTS[what].of === 'issue');
        if ((single && NEED_SEVERAL.includes(how)) || (WIDE.includes(scope) && NOT_WIDE.includes(how))) return [];
        // what the record does not say is no statement, and nobody's mistake
        if (side === 'record' && how === 'missing') return [];
        if (how === 'missing' && FACTS[what].silence === null) return [];
        return [{ what, how, scope, side }];
      }),
    ),
  ),
);

/** Things, each with the ways in which it can be changed, over what, and by whom. */
const THINGS: readonly (readonly [What, How, readonly Scope[], readonly EditSide[]])[] = [
  ['frame', 'missing', ['page', 'run', 'issue'], ['return', 'record']],
  ['frame', 'repeated', ['page', 'run', 'issue'], ['return', 'record']],
  ['delivery', 'missing', ['page', 'run'], ['return', 'record']],
  ['delivery', 'other', ['page'], ['return', 'record']],
  ['delivery', 'exchanged', ['page', 'issue', 'reel', 'batch'], ['return', 'record']],
  ['delivery', 'repeated', ['page'], ['return']],
  ['delivery', 'moved', ['page', 'run'], ['return', 'record']],
  ['document', 'missing', ['issue', 'run', 'title'], ['return']],
  ['document', 'other', ['issue', 'run'], ['return']],
  ['document', 'repeated', ['issue'], ['return']],
  ['document', 'exchanged', ['issue'], ['return', 'record']],
  ['document', 'moved', ['issue', 'run'], ['return']],
  ['document', 'merged', ['issue'], ['return', 'record']],
  ['document', 'split', ['issue'], ['return', 'record']],
  ['file', 'missing', ['page', 'issue', 'run', 'batch'], ['return']],
  ['file', 'repeated', ['page', 'run'], ['return']],
  ['target', 'missing', ['page', 'batch'], ['return']],
  ['absence', 'missing', ['issue', 'title', 'batch'], ['return', 'record']],
  ['absence', 'other', ['issue', 'batch'], ['return', 'record']],
  ['absence', 'moved', ['issue'], ['return', 'record']],
  ['absence', 'repeated', ['page'], ['return', 'record']],
];

/** Every product that means something. */
export const PRODUCTS: readonly Product[] = [
  ...factProducts,
  ...THINGS.flatMap(([what, how, scopes, sides]) => scopes.flatMap((scope) => sides.map((side): Product => ({ what, how, scope, side })))),
];

/** Places where a unit of a scope can lie. */
export function spotsFor(scope: Scope): readonly Spot[] {
  return WIDE.includes(scope) ? ['all'] : ['head', 'middle', 'end', 'splice', 'beside'];
}
