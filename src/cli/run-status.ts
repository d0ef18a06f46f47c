/** Exit status of a command that could not run, which the user can mend. */
export const COULD_NOT_RUN = 3;
/** Exit status of a fault of the program. */
export const FAULT = 4;
