import type { Profile } from '../model/profile.js';
import { issueMets } from './issue-mets.js';
import { pageMods } from './page-mods.js';

/** The built-in profiles, in the order in which they are tried and listed. */
export const PROFILES: readonly Profile[] = [issueMets, pageMods];
