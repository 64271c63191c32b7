export { JobFileError, type JobFault } from "./faults";
export { makeJobFile } from "./make";
export { checkChanges, checkSame, isChangeable, keyOf } from "./rules";
export { readJobFile, type JobFileRead } from "./read";
export { PARENTS, VERSION, type FileChange, type FilePhoto, type FileRecord, type JobContents, type JobKind } from "./shapes";
