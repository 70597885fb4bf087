import { join } from 'node:path'
import Database from 'better-sqlite3'
import { first } from '../../hub/store/migrations/0001-first.ts'
import { exampleSurvey, nineOClock } from './example-survey.ts'

/**
 * Makes a data folder as the first version of the hub left it: one board, `sedge-1`, whose thermometer sent one numbered
 * message a second, the last hundred of them not yet moved to their sorted place. Written by SQL alone.
 */
export function olderFolder(folder: string, messages: number): void {
  const database = new Database(join(folder, 'readings.sqlite'))
  database.pragma('journal_mode = WAL')
  database.transaction(() => {
    database.exec(first)
    database.pragma(`application_id = ${0x5455534b}`)
    database.pragma('user_version = 1')
    database
      .prepare("INSERT INTO survey_revision VALUES ('example', 1, 0, 'first', ?)")
      .run(JSON.stringify(exampleSurvey()))
    database.exec(`
      INSERT INTO board VALUES (1, 'sedge-1', ${nineOClock}, NULL);
      INSERT INTO channel VALUES (1, 1, 'temperature', 'Cel');
      INSERT INTO calibration VALUES (1, 'temp-cal-1');
      INSERT INTO start_up VALUES (1, 1, ${nineOClock});
      INSERT INTO tally VALUES ('messages', ${messages}), ('readings', ${messages});
      CREATE TEMP TABLE sent AS
        WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${messages}) SELECT i FROM n;
      INSERT INTO message SELECT i, 1, 'mqtt:sedge-1', ${nineOClock} + i * 1000, 1, i, ${nineOClock} + i * 1000,
        ${nineOClock} + i * 1000, 'arrival',
        CAST('[{"bn":"sedge-1/","n":"startup","v":1},{"n":"message","v":' || i || '},{"n":"temperature","u":"Cel","v":' || (i % 300) / 10.0 || '}]' AS BLOB)
        FROM sent;
      INSERT INTO reading SELECT 1, ${nineOClock} + i * 1000, i * 1024, (i % 300) / 10.0, (i % 300) / 10.0 - 0.5, 0.1, 1, 1, NULL
        FROM sent WHERE i <= ${messages - 100};
      INSERT INTO inbox SELECT 1, ${nineOClock} + i * 1000, i * 1024, (i % 300) / 10.0, (i % 300) / 10.0 - 0.5, 0.1, 1, 1, NULL
        FROM sent WHERE i > ${messages - 100};
    `)
  })()
  database.close()
}
