// What comes over the line for a start, counted while it comes. Who reads a file still gets it as the browser gave it, so
// that a program is compiled while it comes, and its compiled form is found again.

/** @typedef {readonly number[]} Sizes of one file, as it is and as it is carried, in the order of CARRIED */

const CARRIED = ["", "br", "gzip"];

export class Coming {
  /** @type {Map<string, { came: number, carried: number, how: string | null }>} */
  files = new Map();

  /** @param {Record<string, Sizes>} sizes by name */
  constructor(sizes) {
    this.sizes = sizes;
  }

  /** @param {string[]} names what is going to come */
  expect(...names) {
    for (const name of names) if (!this.files.has(name)) this.files.set(name, { came: 0, carried: 0, how: null });
  }

  /** @param {string} name of what came by a way that can't be counted */
  arrived(name) {
    this.expect(name);
    this.file(name).came = Infinity;
  }

  /**
   * @param {string} name
   * @param {Response} response is given back as it is
   */
  counted(name, response) {
    this.expect(name);
    const file = this.file(name);
    file.came = 0;
    file.how = response.headers.get("Content-Encoding") ?? "";
    file.carried = Number(response.headers.get("Content-Length"));
    this.count(file, response.clone()).catch(() => {}); // whoever reads the other half is told of it
    return response;
  }

  /**
   * @param {{ came: number }} file
   * @param {Response} half
   */
  async count(file, { body }) {
    const reader = body?.getReader();
    for (let next = await reader?.read(); next && !next.done; next = await reader?.read()) file.came += next.value.length;
    file.came = Infinity;
  }

  /** @param {string} name */
  file(name) {
    return /** @type {{ came: number, carried: number, how: string | null }} */ (this.files.get(name));
  }

  /** Bytes on the line: those that are here, and all. */
  sum() {
    // What has not begun is carried as the rest is.
    const usual = [...this.files.values()].find((file) => file.how !== null)?.how ?? "br";
    let [had, of] = [0, 0];
    for (const [name, { came, carried, how }] of this.files) {
      const sizes = this.sizes[name] ?? [0];
      const whole = carried || (sizes[CARRIED.indexOf(how ?? usual)] ?? sizes[0]);
      had += came < sizes[0] ? (whole * came) / sizes[0] : whole;
      of += whole;
    }
    return { had, of };
  }
}
