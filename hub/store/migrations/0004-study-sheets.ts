/** Sheets of species and animals, whole, as they were given: what is read from them follows from bytes and answers. */
export const studySheets = `
CREATE TABLE study_sheet (
  id INTEGER PRIMARY KEY,
  survey TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('species', 'animals')),
  name TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  by_whom TEXT,
  bytes BLOB NOT NULL,
  answers TEXT NOT NULL,
  is_removed INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX study_sheet_of_survey ON study_sheet (survey, kind);
`
