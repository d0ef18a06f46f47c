import { isDay } from '../../calendar/civil.js';
import { UserMistake } from '../../read/mistake.js';

/** A day that somebody gave, `what` being the name of the place where it stands; throws UserMistake where it is none. */
export function dayGiven(what: string, text: string): string {
  if (isDay(text)) return text;
  throw new UserMistake(`${what}: ${text} is not a day of the calendar. Write it as 2026-01-31.`);
}
