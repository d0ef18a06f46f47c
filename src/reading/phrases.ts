import type { Facts } from './cell-facts.js';

/** Phrases in notes that state a fact: common practice, no source. `key` is what a reading file calls the phrase. */
interface Phrase {
  readonly key: string;
  readonly pattern: RegExp;
  readonly facts: (match: RegExpExecArray) => readonly (readonly [field: string, text: string])[];
  readonly means: string;
}

export const PHRASES: readonly Phrase[] = [
  {
    key: 'dup. of',
    pattern: /\b(?:dup(?:l|licate)?\.?|copy) of (?:fr(?:ame)?\.? ?|exp(?:osure)?\.? ?|#)?(\d{1,6}[A-Z]?)\b/i,
    facts: ([, frame = '']) => [
      ['duplicate of', frame],
      ['deliver', 'no'],
    ],
    means: 'the frame is a duplicate of that frame and is held back',
  },
  {
    key: 'retake of',
    pattern: /\b(?:re-?take|re-?film(?:ed)?|re-?shot) of (?:fr(?:ame)?\.? ?|exp(?:osure)?\.? ?|#)?(\d{1,6}[A-Z]?)\b/i,
    facts: ([, frame = '']) => [['retake of', frame]],
    means: 'the frame was filmed to replace that frame',
  },
  {
    key: 'wanting',
    pattern: /\b(?:wanting|missing|not on film|not filmed|lacking)\b/i,
    facts: () => [['published', 'yes']],
    means: 'in a row without a frame number: it was published and is not on the film',
  },
  {
    key: 'not published',
    pattern: /\b(?:not published|never published|not issued|no issue)\b/i,
    facts: () => [['published', 'no']],
    means: 'in a row without a frame number: it was not published',
  },
  ...['torn', 'mutilated', 'clipped', 'stained', 'creased', 'out of focus', 'illegible', 'faded'].map(
    (word): Phrase => ({
      key: word,
      pattern: new RegExp(`\\b${word}\\b`, 'i'),
      facts: () => [['condition', word]],
      means: `the condition "${word}"`,
    }),
  ),
];

/** The facts that a note states in phrases which are taken as facts; `absent` is true in a row without a frame number. */
export function phraseFacts(note: string, absent: boolean, taken: ReadonlyMap<string, 'fact' | 'note'>): Facts {
  const facts = new Map<string, string>();
  for (const { key, pattern, facts: of } of PHRASES) {
    const match = taken.get(key) === 'fact' ? pattern.exec(note.slice(0, 1000)) : null;
    if (match === null) continue;
    for (const [field, text] of of(match)) {
      if ((field === 'published') !== absent) continue;
      const before = facts.get(field);
      facts.set(field, field === 'condition' && before !== undefined ? `${before}; ${text}` : (before ?? text));
    }
  }
  return facts;
}
