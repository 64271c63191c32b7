/** The few lines that go into every job file, for whoever opens it without the app: the service writes the same. */
export const ABOUT_TEXT = `One job of Evenbed, with everything that is known of it.

job.json  (JSON, UTF-8)
  evenbed_job  1, the version of this format
  made_at, made_by, schema   when and by whom the file was made; the version of what fields mean
  job          the id of the job
  records      every record as it stands: kind, id, fields. Lengths in mm, temperatures in degrees Celsius,
               times ISO 8601. Deleted ones have "deleted": true.
  history      every change in the order in which they took effect: change_id, kind, record_id, fields,
               schema, at (when it was made), person, device (id, name), and knew: of each device that had
               edited the record, the last change its maker had seen
  photos       hash (SHA-256), media_type, size in bytes
  complete     history: whether all of it is here; photos: the hashes of those that are not

photos/<hash>.jpg, .png or .webp   the pictures

To take the job in: "Take in a job file" among the jobs of the app, or "evenbed job-in FILE" on a server.
Una obra de Evenbed con todo lo que se sabe de ella.
Para traerla: "Traer un archivo de obra", en la lista de obras.
`;
