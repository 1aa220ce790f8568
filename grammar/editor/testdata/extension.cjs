// Starts and stops the extension with an editor and a client that only take down
// what they are told, and prints that.
const Module = require("node:module");
const path = require("node:path");

const told = {};
class LanguageClient {
  constructor(id, name, server, options) {
    Object.assign(told, { server, options });
  }
  async start() {
    told.started = true;
  }
  async stop() {
    told.stopped = true;
  }
}
const stands = {
  vscode: { workspace: { getConfiguration: (section) => ({ get: (name) => `${section}.${name}` }) } },
  "vscode-languageclient/node": { LanguageClient },
};
const load = Module._load;
Module._load = (name, ...rest) => stands[name] ?? load(name, ...rest);

const extension = require(path.resolve(process.argv[2]));
extension
  .activate()
  .then(() => extension.deactivate())
  .then(() => console.log(JSON.stringify(told)));
