import { createRoute, z } from '@hono/zod-openapi'
import {
  AddCalibration,
  AddCheck,
  AddClockCorrection,
  AddDecision,
  AmendPlacement,
  AskBoard,
  OpenPort,
  PlaceProbe,
  PreviewWish,
  PutProbe,
  RehearsalWish,
  SetDrift,
  SetProbeRole,
  SetQuality,
  TakeBackDecision,
  WithdrawCalibration,
  WithdrawProbe,
} from './changes.ts'
import { CleanCount } from './clean.ts'
import { exportQuery } from './export-query.ts'
import { BoardName, Instant } from './names.ts'
import { QualityTestListed } from './quality.ts'
import { ProbeReadiness, QuadratMove } from './readiness.ts'
import { ChannelNow, ChartMark, QuadratSeries, ReadingExplained, TimeSpan } from './reading.ts'
import { body, done, json, refusals, surveyId } from './route-parts.ts'
import { BoardNow, HubAddress, HubHealth, HubNow, PortNow, Quarantined } from './status.ts'
import { SurveyFile } from './survey.ts'

export const getHub = createRoute({
  method: 'get',
  path: '/api/hub',
  summary: 'The hub at this moment: clock, broker, counts, surveys',
  responses: { 200: json(HubNow, 'Status.'), ...refusals },
})

export const getHealth = createRoute({
  method: 'get',
  path: '/api/health',
  summary: 'What is wrong with the hub at this moment, in words; 503 when something is',
  responses: {
    200: json(HubHealth, 'All is well.'),
    ...refusals,
    503: json(HubHealth, 'Something is wrong.'),
  },
})

export const getAddresses = createRoute({
  method: 'get',
  path: '/api/addresses',
  summary: 'Where the page can be opened, the best for phones first',
  responses: { 200: json(z.object({ addresses: z.array(HubAddress) }), 'Addresses.'), ...refusals },
})

export const getDirectory = createRoute({
  method: 'get',
  path: '/api/directory',
  summary:
    'Boards, ports and channels at this moment, each channel with its probe, quadrat and newest reading',
  responses: {
    200: json(
      z.object({ boards: z.array(BoardNow), ports: z.array(PortNow), channels: z.array(ChannelNow) }),
      'Directory.',
    ),
    ...refusals,
  },
})

export const getSurvey = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}',
  summary: 'A survey as its file',
  request: {
    params: surveyId,
    /** `included`: with its spot readings, as `tussock survey save` writes it */
    query: z.object({ spots: z.enum(['left-out', 'included']).default('left-out') }),
  },
  responses: { 200: json(SurveyFile, 'The survey file.'), ...refusals },
})

export const putSurvey = createRoute({
  method: 'put',
  path: '/api/surveys/{survey}',
  summary: 'Save a survey from its file; a wrong file changes nothing',
  request: { params: surveyId, ...body(z.unknown()) },
  responses: { 200: done, ...refusals },
})

export const postPlacement = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/placements',
  summary: 'Put a probe at a quadrat, or lift it, from a moment on',
  request: { params: surveyId, ...body(PlaceProbe) },
  responses: { 200: done, ...refusals },
})

export const postPlacementAmendment = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/placements/amend',
  summary: 'Correct a placement made before: another quadrat, other times, or none; readings follow',
  request: { params: surveyId, ...body(AmendPlacement) },
  responses: { 200: done, ...refusals },
})

export const postClockCorrection = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/clock-corrections',
  summary: 'Move the readings of a board in a span by what its clock was wrong',
  request: { params: surveyId, ...body(AddClockCorrection) },
  responses: { 200: json(z.object({ done: z.literal(true), id: z.string() }), 'Its id.'), ...refusals },
})

export const deleteClockCorrection = createRoute({
  method: 'delete',
  path: '/api/surveys/{survey}/clock-corrections/{correction}',
  summary: 'Take a clock correction away: the readings go back to the times they came with',
  request: { params: surveyId.extend({ correction: z.string() }) },
  responses: { 200: done, ...refusals },
})

export const postCalibration = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/calibrations',
  summary: 'Add a calibration; values it changes are recomputed in the background',
  request: { params: surveyId, ...body(AddCalibration) },
  responses: { 200: done, ...refusals },
})

export const postWithdrawal = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/calibrations/{calibration}/withdraw',
  summary: 'Withdraw a calibration with a reason; it stays on record',
  request: { params: surveyId.extend({ calibration: z.string() }), ...body(WithdrawCalibration) },
  responses: { 200: done, ...refusals },
})

export const postPreview = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/calibrations/preview',
  summary: 'What adding or withdrawing a calibration would change, quadrat by quadrat; nothing is stored',
  request: { params: surveyId, ...body(PreviewWish) },
  responses: {
    200: json(z.object({ moves: z.array(QuadratMove) }), 'One entry a quadrat and quantity.'),
    ...refusals,
  },
})

export const getReadiness = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/readiness',
  summary: 'Which probes may go out, and why not',
  request: { params: surveyId },
  responses: { 200: json(z.object({ probes: z.array(ProbeReadiness) }), 'One entry a probe.'), ...refusals },
})

export const postCheck = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/checks',
  summary: 'Keep a check standard: a known reference measured without adjusting',
  request: { params: surveyId, ...body(AddCheck) },
  responses: { 200: done, ...refusals },
})

export const postDrift = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/drift',
  summary: 'Show readings corrected for drift from a calibration to later checks; without checks, no more',
  request: { params: surveyId, ...body(SetDrift) },
  responses: { 200: done, ...refusals },
})

export const getClean = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/clean',
  summary: 'How many readings are clean, and why the others are left out: they add up to all of them',
  request: { params: surveyId },
  responses: { 200: json(CleanCount, 'Counts and a sentence.'), ...refusals },
})

export const postDecision = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/decisions',
  summary: 'Leave readings of a probe out for a span of time, or accept suspect ones, with a reason',
  request: { params: surveyId, ...body(AddDecision) },
  responses: { 200: json(z.object({ done: z.literal(true), id: z.string() }), 'Its id.'), ...refusals },
})

export const postTakeBack = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/decisions/{decision}/take-back',
  summary: 'Take a decision back; it stays on record',
  request: { params: surveyId.extend({ decision: z.string() }), ...body(TakeBackDecision) },
  responses: { 200: done, ...refusals },
})

export const getQualityTests = createRoute({
  method: 'get',
  path: '/api/quality',
  summary: 'The quality tests in words, with their limits by quantity',
  responses: { 200: json(z.object({ tests: z.array(QualityTestListed) }), 'All tests.'), ...refusals },
})

export const putQuality = createRoute({
  method: 'put',
  path: '/api/surveys/{survey}/quality',
  summary: 'Set the thresholds that differ from the defaults; flags are worked out again in the background',
  request: { params: surveyId, ...body(SetQuality) },
  responses: { 200: done, ...refusals },
})

export const postProbeWithdrawal = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/probes/{probe}/withdraw',
  summary: 'Withdraw a probe with a reason, or take it back into use',
  request: { params: surveyId.extend({ probe: z.string() }), ...body(WithdrawProbe) },
  responses: { 200: done, ...refusals },
})

export const postProbeRole = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/probes/{probe}/role',
  summary: 'Say that a probe is carried round, or stands for the whole survey',
  request: { params: surveyId.extend({ probe: z.string() }), ...body(SetProbeRole) },
  responses: { 200: done, ...refusals },
})

export const postPut = createRoute({
  method: 'post',
  path: '/api/rehearsal/put',
  summary: 'Rehearsal: put a simulated probe into a buffer, an ice bath, before a fan, or back',
  request: body(PutProbe),
  responses: { 200: json(z.object({ text: z.string() }), 'What was done.'), ...refusals },
})

export const postUndo = createRoute({
  method: 'post',
  path: '/api/surveys/{survey}/undo',
  summary: 'Take the last change to a survey back; doing it again takes that back',
  request: { params: surveyId },
  responses: {
    200: json(z.object({ done: z.literal(true), undone: z.string() }), 'What was taken back.'),
    ...refusals,
  },
})

const span = z.object({ from: Instant.optional(), to: Instant.optional() })

export const getQuadratSeries = createRoute({
  method: 'get',
  path: '/api/surveys/{survey}/quadrats/{quadrat}/series',
  summary: 'Readings at one quadrat in equal steps of time, for charts',
  request: {
    params: surveyId.extend({ quadrat: z.string() }),
    query: span.extend({
      quantity: z.string().optional(),
      steps: z.coerce.number().int().min(10).max(5000).default(600),
    }),
  },
  responses: {
    200: json(
      z.object({ series: z.array(QuadratSeries), nights: z.array(TimeSpan), marks: z.array(ChartMark) }),
      'One entry a probe; the nights at the site, and what was done to the probes.',
    ),
    ...refusals,
  },
})

export const getReading = createRoute({
  method: 'get',
  path: '/api/readings/{reading}',
  summary: 'One reading with everything it rests on, down to the bytes',
  request: { params: z.object({ reading: z.coerce.number().int().positive() }) },
  responses: { 200: json(ReadingExplained, 'The reading.'), ...refusals },
})

export const getQuarantine = createRoute({
  method: 'get',
  path: '/api/quarantine',
  summary: 'What could not be read, newest first',
  request: {
    query: z.object({
      before: z.coerce.number().int().positive().optional(),
      limit: z.coerce.number().int().min(1).max(1000).default(100),
    }),
  },
  responses: { 200: json(z.object({ quarantined: z.array(Quarantined) }), 'A page of it.'), ...refusals },
})

export const postBackup = createRoute({
  method: 'post',
  path: '/api/backup',
  summary: 'Copy the readings to the place the hub was started with, and prove the copy',
  responses: {
    200: json(
      z.object({
        done: z.literal(true),
        file: z.string(),
        readings: z.number().int(),
        messages: z.number().int(),
        bytes: z.number().int(),
      }),
      'The copy, read back and sound.',
    ),
    ...refusals,
  },
})

export const getPorts = createRoute({
  method: 'get',
  path: '/api/ports',
  summary: 'Serial ports of this machine',
  responses: {
    200: json(
      z.object({
        ports: z.array(
          z.object({
            path: z.string(),
            maker: z.string().optional(),
            serialNumber: z.string().optional(),
            usbId: z.string().optional(),
          }),
        ),
        trouble: z.string().nullable(),
      }),
      'Ports found.',
    ),
    ...refusals,
  },
})

export const postPort = createRoute({
  method: 'post',
  path: '/api/ports',
  summary: 'Open a serial port and keep it open',
  request: body(OpenPort),
  responses: { 200: done, ...refusals },
})

export const deletePort = createRoute({
  method: 'delete',
  path: '/api/ports',
  summary: 'Close a serial port',
  request: { query: z.object({ path: z.string() }) },
  responses: { 200: done, ...refusals },
})

export const postAsk = createRoute({
  method: 'post',
  path: '/api/boards/{board}/ask',
  summary: 'Ask a board: who, time, or every SECONDS',
  request: { params: z.object({ board: z.string() }), ...body(AskBoard) },
  responses: { 200: done, ...refusals },
})

export const postBoardKey = createRoute({
  method: 'post',
  path: '/api/boards/{board}/key',
  summary: 'Make a key for a board, with which it proves its name to the broker; shown this once',
  request: { params: z.object({ board: BoardName }) },
  responses: { 200: json(z.object({ done: z.literal(true), key: z.string() }), 'The key.'), ...refusals },
})

export const deleteBoardKey = createRoute({
  method: 'delete',
  path: '/api/boards/{board}/key',
  summary: 'Remove the key of a board',
  request: { params: z.object({ board: z.string() }) },
  responses: { 200: done, ...refusals },
})

export const postRehearsal = createRoute({
  method: 'post',
  path: '/api/rehearsal',
  summary: 'Rehearse with a simulated class, in a data folder of its own',
  request: body(RehearsalWish),
  responses: { 200: done, ...refusals },
})

export const deleteRehearsal = createRoute({
  method: 'delete',
  path: '/api/rehearsal',
  summary: 'End the rehearsal and go back to the class’s own data',
  responses: { 200: done, ...refusals },
})

export const getReadingsCsv = createRoute({
  method: 'get',
  path: '/api/export/readings.csv',
  summary: 'Readings as CSV (RFC 4180), one row a reading',
  request: { query: exportQuery },
  responses: { 200: { description: 'CSV.', content: { 'text/csv': { schema: z.string() } } }, ...refusals },
})
