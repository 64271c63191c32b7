/** Called once by the app: connects the ports and puts what is stored on show. */
import { showDrafts } from "./drafts";
import { people } from "./people";
import { connectPorts, port, type Ports } from "./ports";
import { clearRows, hideRows, showRows } from "./records";
import { loaded } from "./status";
import { undoSteps } from "./undo";

export async function connect(ports: Ports): Promise<void> {
  connectPorts(ports);
  await reload();
}

/** Reads everything stored again: at the start, and after the database was changed from outside. */
export async function reload(): Promise<void> {
  const stored = await port("storage").load();
  clearRows();
  showRows(stored.rows);
  showDrafts(stored.drafts);
  undoSteps.value = stored.undo;
  people.value = stored.people;
  loaded.value = true;
}

export { hideRows, showRows, type Ports };
