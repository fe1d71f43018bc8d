// Runs telegram-test-api, from the folder named, on a free port of loopback until standard input is closed.
'use strict';

const TelegramServer = require(process.argv[2]);

const HOST = '127.0.0.1';
const HOUR = 3600;

// A port of 0 would become its default; as text it reaches the system, which gives a free one.
const server = new TelegramServer({ port: '0', host: HOST, storeTimeout: HOUR });
server.start().then(() => {
  console.log(JSON.stringify({ url: `http://${HOST}:${server.server.address().port}` }));
});
process.stdin.resume().on('end', () => process.exit(0));
