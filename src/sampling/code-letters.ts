import type { InspectionLevel } from '../model/sample.js';

/** Table I of MIL-STD-105E (10 May 1989): the code letter of a lot by its size and the inspection level. Two independent transcriptions agree. */
export const codeLetters: readonly { readonly upTo: number; readonly letters: Readonly<Record<InspectionLevel, string>> }[] = [
  { upTo: 8, letters: { 'S-1': 'A', 'S-2': 'A', 'S-3': 'A', 'S-4': 'A', I: 'A', II: 'A', III: 'B' } },
  { upTo: 15, letters: { 'S-1': 'A', 'S-2': 'A', 'S-3': 'A', 'S-4': 'A', I: 'A', II: 'B', III: 'C' } },
  { upTo: 25, letters: { 'S-1': 'A', 'S-2': 'A', 'S-3': 'B', 'S-4': 'B', I: 'B', II: 'C', III: 'D' } },
  { upTo: 50, letters: { 'S-1': 'A', 'S-2': 'B', 'S-3': 'B', 'S-4': 'C', I: 'C', II: 'D', III: 'E' } },
  { upTo: 90, letters: { 'S-1': 'B', 'S-2': 'B', 'S-3': 'C', 'S-4': 'C', I: 'C', II: 'E', III: 'F' } },
  { upTo: 150, letters: { 'S-1': 'B', 'S-2': 'B', 'S-3': 'C', 'S-4': 'D', I: 'D', II: 'F', III: 'G' } },
  { upTo: 280, letters: { 'S-1': 'B', 'S-2': 'C', 'S-3': 'D', 'S-4': 'E', I: 'E', II: 'G', III: 'H' } },
  { upTo: 500, letters: { 'S-1': 'B', 'S-2': 'C', 'S-3': 'D', 'S-4': 'E', I: 'F', II: 'H', III: 'J' } },
  { upTo: 1200, letters: { 'S-1': 'C', 'S-2': 'C', 'S-3': 'E', 'S-4': 'F', I: 'G', II: 'J', III: 'K' } },
  { upTo: 3200, letters: { 'S-1': 'C', 'S-2': 'D', 'S-3': 'E', 'S-4': 'G', I: 'H', II: 'K', III: 'L' } },
  { upTo: 10000, letters: { 'S-1': 'C', 'S-2': 'D', 'S-3': 'F', 'S-4': 'G', I: 'J', II: 'L', III: 'M' } },
  { upTo: 35000, letters: { 'S-1': 'C', 'S-2': 'D', 'S-3': 'F', 'S-4': 'H', I: 'K', II: 'M', III: 'N' } },
  { upTo: 150000, letters: { 'S-1': 'D', 'S-2': 'E', 'S-3': 'G', 'S-4': 'J', I: 'L', II: 'N', III: 'P' } },
  { upTo: 500000, letters: { 'S-1': 'D', 'S-2': 'E', 'S-3': 'G', 'S-4': 'J', I: 'M', II: 'P', III: 'Q' } },
  { upTo: Infinity, letters: { 'S-1': 'D', 'S-2': 'E', 'S-3': 'H', 'S-4': 'K', I: 'N', II: 'Q', III: 'R' } },
];
