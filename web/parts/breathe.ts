/** Lets the page answer taps and keys before long work goes on. By a message rather than a timer, which browsers slow
 *  down on a page in the background. */
export function breathe(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(0);
  });
}
