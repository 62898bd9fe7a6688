/** What is asked of a new password, said before anybody types one. */
export const PASSWORD_HINT =
  'at least 15 characters; four words of your own do well. Any letters, digits, signs and blanks';
