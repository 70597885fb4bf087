/** The middle of so many says what the middle of two hundred says, and those close by say more. */
export const NEIGHBOURS_AT_MOST = 20
