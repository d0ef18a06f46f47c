/** Something the user can mend: a file that is not there, a cell that cannot be read, an option that clashes. The message is whole sentences for a person; the command ends with status 3. */
export class UserMistake extends Error {
  override readonly name = 'UserMistake';
}
