// Runs the WebAssembly build of MiniZinc in the npm package `minizinc` without a browser:
//   COATWRIGHT_MINIZINC=FOLDER node run_minizinc.cjs --solver chuffed --time-limit 20000 MODEL DATA
// FOLDER holds node_modules. Options are handed on; files are read here, since the worker sees
// none, and are given to it under their bare names. Prints what MiniZinc prints.
'use strict';
const fs = require('fs');
const path = require('path');
const { Worker, isMainThread, parentPort } = require('worker_threads');

const dist = path.resolve(process.env.COATWRIGHT_MINIZINC || '.', 'node_modules/minizinc/dist');

/** The arguments as the worker sees them, and the text of each file among them. */
function split_arguments(given) {
  const files = {};
  const args = given.map((argument) => {
    if (!/\.(mzn|dzn)$/.test(argument)) {
      return argument;
    }
    const name = path.basename(argument);
    files[name] = fs.readFileSync(argument, 'utf8');
    return name;
  });
  return { args, files };
}

/** Asks the worker once it is ready, and ends with its exit code. */
function run(given) {
  const worker = new Worker(__filename, { resourceLimits: { maxOldGenerationSizeMb: 4096 } });
  const print = {
    ready: () => worker.postMessage({ ...split_arguments(given), jsonStream: false }),
    stdout: (message) => process.stdout.write(message.value),
    stderr: (message) => process.stderr.write(message.value),
    exit: (message) => {
      process.stdout.write(message.stdout || '');
      process.stderr.write(message.stderr || message.message || '');
      process.exitCode = message.code || 0;
      worker.terminate();
    },
  };
  worker.on('message', (message) => (print[message.type] || (() => {}))(message));
  worker.on('error', (error) => {
    console.error(error.message);
    process.exitCode = 1;
  });
  worker.postMessage({
    wasmURL: path.join(dist, 'minizinc.wasm'),
    dataURL: path.join(dist, 'minizinc.data'),
  });
}

/** What the package's worker expects of a browser. */
function stand_in_for_browser() {
  let listener;
  globalThis.self = globalThis;
  globalThis.addEventListener = (type, handler) => {
    if (type === 'message') {
      listener = handler;
    }
  };
  globalThis.postMessage = (message) => parentPort.postMessage(message);
  globalThis.require = require;
  globalThis.__dirname = dist;
  globalThis.__filename = path.join(dist, 'minizinc-worker.js');
  parentPort.on('message', (data) => listener({ data }));
  require(globalThis.__filename);
}

if (isMainThread) {
  run(process.argv.slice(2));
} else {
  stand_in_for_browser();
}
