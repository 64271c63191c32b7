/** The only wiring: storage, office, engine and updates behind the state's ports. Called once by `main.tsx`. */
import { startBridge } from "../bridge";
import { connect, hideRows, showRows, type Ports } from "../state/connect";
import { lookAtStorage } from "../state/keeping";
import { engineState, NotSavedError, refused, session, storageState, sync, updateOffered } from "../state/status";
import { Storage, StorageError, type Standing } from "../storage";
import { browserSurroundings, Office, ScanReader, watchOccasions } from "../sync";
import { jobFilesOf } from "./jobFiles";
import { startPhotos } from "./photos";
import { watchUpdates } from "./update";
import { watchForWorkToKeep } from "./keep";

/** Resolves when the stored records are on show. The engine wakes meanwhile; nothing waits for the network. */
export async function start(): Promise<void> {
  const storage = new Storage();
  const office = new Office(storage, browserSurroundings);
  const engine = startBridge((state) => (engineState.value = state));
  showWhatStorageTells(storage);
  office.onPhase((phase) => (sync.value = { ...sync.peek(), phase }));
  const photos = startPhotos(storage, office);
  watchNetwork();
  const update = watchUpdates(() => (updateOffered.value = true));
  await connect({ storage: storageReporting(storage), jobFiles: jobFilesReporting(storage), engine, office, photos, scans: new ScanReader(), update });
  storageState.value = { ...storageState.peek(), blocked: false };
  watchOccasions(office, storage);
  await lookAtStorage();
  watchForWorkToKeep(storage);
}

function showWhatStorageTells(storage: Storage): void {
  storage.onBlocked(() => (storageState.value = { ...storageState.peek(), blocked: true }));
  storage.onNews(({ rows, gone }) => {
    showRows(rows);
    hideRows(gone);
  });
  storage.onStanding(showStanding);
}

function showStanding({ waiting, account, ...standing }: Standing): void {
  const { lastSentAt, clockOffsetMs } = account;
  sync.value = { ...sync.peek(), waiting, lastSentAt, clockOffsetMs };
  refused.value = standing.refused;
  const { joined, person, personId, role, deviceId, deviceName, mustJoinAgain, removed } = account;
  session.value = { joined, person, personId, role, deviceId, deviceName, mustJoinAgain, removed };
}

/** The storage, with every failure put on show before the action hears of it. */
function storageReporting(storage: Storage): Ports["storage"] {
  return {
    load: () => reporting(storage.load()),
    write: (edits, together) => reporting(storage.write(edits, together)),
    saveDraft: (key, value) => reporting(storage.saveDraft(key, value)),
    dismissRefused: (changeId) => reporting(storage.dismissRefused(changeId)),
    unsentOf: (kind, id) => reporting(storage.unsentOf(kind, id)),
    unsentFile: () => storage.unsentFile(),
    readUnsentFile: (text) => reporting(storage.readUnsentFile(text)),
  };
}

function jobFilesReporting(storage: Storage): Ports["jobFiles"] {
  const files = jobFilesOf(storage);
  return {
    noteOpened: (jobId) => files.noteOpened(jobId),
    make: (jobId) => reporting(files.make(jobId)),
    take: (file) => reporting(files.take(file)),
  };
}

async function reporting<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    const reason = error instanceof StorageError ? error.reason : "failed";
    storageState.value = { ...storageState.peek(), error: reason };
    throw new NotSavedError(reason, { cause: error });
  }
}

function watchNetwork(): void {
  const look = () => (sync.value = { ...sync.peek(), online: navigator.onLine });
  addEventListener("online", look);
  addEventListener("offline", look);
  look();
}
