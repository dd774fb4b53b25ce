// Photos taken on a walk: what is said of the last one, and the place it offers.

import type { PhotoAdded, PhotoOf } from '../contract';
import { say } from '../messages';
import type { WalkSession } from './session.svelte';

export class WalkPhotos {
  status = $state('');
  /** Place that the picture's file named for a stop without one. */
  offered = $state.raw<PhotoAdded['offered']>(null);

  constructor(private readonly session: WalkSession) {}

  /** Keeps a photo of the stop shown. */
  ofStop(file: File): void {
    const { stop } = this.session;
    if (stop) void this.#take(file, { kind: 'stop', id: stop.id }, say.photos.keptStop(stop.number));
  }

  /** Keeps a photo of the head that marks go to. */
  ofHead(file: File): void {
    const head = this.session.marked;
    if (head) void this.#take(file, { kind: 'head', id: head.id }, say.photos.keptHead(head.number));
  }

  /** Gives the stop the place that was offered. */
  async useOffered(): Promise<void> {
    if (!this.offered) return;
    const { stop, place } = this.offered;
    this.offered = null;
    await this.session.takeOffered({ stop, place });
    this.status = say.photos.placeUsed;
  }

  /** Says no more of the last photo. */
  clear(): void {
    this.status = '';
    this.offered = null;
  }

  async #take(file: File, of: PhotoOf, kept: string): Promise<void> {
    this.status = say.photos.keeping;
    const added = await this.session.keepPhoto(file, of);
    this.status = added ? kept : '';
    this.offered = added?.offered ?? null;
  }
}
