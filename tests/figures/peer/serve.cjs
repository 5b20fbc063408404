// The server that comes with y-websocket, at a free port: prints its address.
const http = require("node:http");
const { WebSocketServer } = require("ws");
const { setupWSConnection } = require("y-websocket/bin/utils");

const server = http.createServer();
new WebSocketServer({ server }).on("connection", setupWSConnection);
server.listen(0, "127.0.0.1", () => console.log(`127.0.0.1:${server.address().port}`));
