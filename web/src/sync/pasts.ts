/** After a round, quietly: what the office has to tell of the past of jobs that were opened on this phone. */
import { StorageError, type Storage, type StoredOpened } from "../storage";
import { ProblemReply, type Service } from "./service";

export async function fetchPasts(storage: Storage, service: Service): Promise<void> {
  for (const opened of await storage.pastsToFetch()) await fetchOne(storage, service, opened);
}

/** An office that does not know the question, or a phone without room for the answer, go on without it. */
async function fetchOne(storage: Storage, service: Service, opened: StoredOpened): Promise<void> {
  try {
    let asked = opened;
    for (;;) {
      const page = await service.jobHistory(asked.job_id, asked.next);
      if (!(await storage.keepPast(asked, page))) return;
      asked = { ...asked, next: page.next, isWhole: false };
    }
  } catch (error) {
    const isFull = error instanceof StorageError && error.reason === "full";
    if (!isFull && !(error instanceof ProblemReply && error.status === 404)) throw error;
  }
}
