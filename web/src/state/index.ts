/** The state of the app: all that screens may import (with the types of `wire`). See README.md beside this file. */
export {
  addClimate,
  addPlacement,
  addReading,
  correctReading,
  createJob,
  createRoom,
  deleteRecord,
  editClimate,
  editJob,
  editPlacement,
  editRoom,
  restoreRecord,
  setCrew,
  undo,
  type ActionOptions,
  type NewReading,
} from "./actions";
export { addAlternative, chooseAlternative, decideTop, decisionOf, editAlternative } from "./alternatives";
export {
  alarmBook, alarmKey, fillHere, hearAlarm, isBatchOpen, joinedAlarms, noteSounded, ringingAlarms, silenceAlarms, takeAlarms, type AlarmBook, type Worked,
} from "./alarms";
export { askEngine, readScan, type Asked } from "./asking";
export { boardLeft, boardWaits, watchBoard, type RoomWaits } from "./board";
export * from "./calendar";
export { fetchForecast } from "./weather";
export { calendarOfRooms, type CalendarMaking } from "./calendarFile";
export { editPrices, editSupplies } from "./company";
export { documentFromRoom, documentPrices, documentTextOf } from "./document";
export { clearDraft, getDraft, setDraft } from "./drafts";
export { askToKeep } from "./keeping";
export {
  acceptCheck,
  addCheck,
  addLaying,
  beginSetup,
  changeSetup,
  keepInstrument,
  keepMark,
  knownInstruments,
  newInstrument,
  readSkipped,
  removeMark,
  removeSetup,
  skipPlace,
  USUAL_ERRORS,
} from "./levelling";
export { noteOpened, saveJobFile, takeJobFile } from "./jobfile";
export * from "./office";
export { patternOf } from "./pattern";
export * from "./people";
export {
  addPhoto,
  editPhoto,
  photosOfEntry,
  photosOfReading,
  photosWaiting,
  pictureOf,
  sendPhotoAgain,
  standingOfPhoto,
  thumbnailOf,
  type PhotoOf,
} from "./photos";
export { planOf, type PlanState } from "./plans";
export type { Answer, Conflict, History, Invite, KnownDevice, KnownPerson, NotDone, People, Refused, Role, Row, Unsent } from "../wire";
export type { JobFile, JobTaken, JoinOutcome, ReadOutcome, UnsentFile } from "./ports";
export { preferences, setPreference, type Language, type Preferences, type Theme } from "./preferences";
export * from "./rails";
export * from "./handover";
export { addEntry, editBatch, editEntry, endEntry, lasting, markSection, mixBatch, placeSections, type NewEntry } from "./filling";
export type { AskedEachMinute } from "./eachMinute";
export { fillClockOf } from "./fillClock";
export { waitingOf } from "./waiting";
export { cutOffSection, placeBatch } from "./placing";
export {
  allReadingsOf,
  alternativesOf,
  batchesOf,
  climateOf,
  companyPrices,
  companySupplies,
  deletedIn,
  deletedRows,
  entriesOf,
  forecastOf,
  gapsOf,
  heightLinesOf,
  jobOf,
  jobs,
  photosOf,
  placedRooms,
  placementsOf,
  railChecksOf,
  readingsOf,
  roomOf,
  roomRows,
  rowOf,
  roomsOf,
  signOffsOf,
  stationsOf,
  temperatureLogsOf,
} from "./records";
export { batchesIn, placementsIn, placeOf, sectionIdOf, sectionTimes, sectionTimesOf, type SectionPlace, type SectionShape } from "./sections";
export { keepStanding, openConflicts, restoreValue, takeOther, type Lost, type OpenConflict } from "./review";
export { documentSetup, FIRST_SETUP, setupFromDocument, setupsIn, standAt, standingIn, tiedSetups, type Standing } from "./setups";
export {
  engineState,
  isForeman,
  loaded,
  mayWrite,
  NotSavedError,
  refused,
  saveLine,
  seesMoney,
  session,
  storageState,
  updateOffered,
  type EngineState,
  type NotSavedReason,
  type SaveLine,
  type Session,
  type StorageFault,
  type StorageState,
  type SyncPhase,
} from "./status";
export { takeReadings, type TakenReading, type TakenSetup } from "./taking";
export { canUndo } from "./undo";
export { countAt, readingsAt } from "./stages";
export type { SectionMoment, SectionTimes } from "./worked";
export { placedFromRows, wholeRails } from "./worked";
