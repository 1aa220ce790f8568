"use strict";

// Starts the language server for journals.

const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

exports.activate = () => {
  const command = workspace.getConfiguration("budstick").get("command");
  client = new LanguageClient(
    "budstick",
    "budstick",
    { command, args: ["lsp"] },
    { documentSelector: [{ language: "budstick" }] },
  );
  return client.start();
};

exports.deactivate = () => client?.stop();
