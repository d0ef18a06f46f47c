import type { Profile } from '../model/profile.js';
import { issueMets } from './issue-mets.js';
import { linkedMaps } from './linked-maps.js';
import { pageMods } from './page-mods.js';
import { twoMaps } from './two-maps.js';

/** The profiles that are tried where none is named, in this order. */
export const PROFILES: readonly Profile[] = [issueMets, pageMods];

/** All built-in profiles: those that are tried, and worked examples that are used where they are named. */
export const NAMED_PROFILES: readonly Profile[] = [...PROFILES, twoMaps, linkedMaps];
