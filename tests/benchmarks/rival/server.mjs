/** `node server.mjs FOLDER` serves PouchDB over HTTP, kept on disk in that folder; says its port. */
import express from "express";
import serve from "express-pouchdb";
import leveldb from "pouchdb-adapter-leveldb";
import PouchDB from "pouchdb-core";

const [folder] = process.argv.slice(2);
const OnDisk = PouchDB.plugin(leveldb).defaults({ prefix: `${folder}/` });
const app = express();
app.use(serve(OnDisk, { mode: "minimumForPouchDB", inMemoryConfig: true, logPath: `${folder}/log.txt` }));
const listening = app.listen(0, "127.0.0.1", () => console.log(listening.address().port));
