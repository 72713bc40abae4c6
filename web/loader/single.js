async function embeddedProgram() {
  const text = atob(document.getElementById("program").textContent);
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at += 1) bytes[at] = text.charCodeAt(at);
  const plain = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(plain).arrayBuffer();
}

// The bindings stand above in the same script.
startPage(async () => __wbg_init, embeddedProgram);
