import { Worker } from 'node:worker_threads';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import type { WalkAnswer, WalkQuestion } from './plan-ticket-walk.js';

interface Waiting {
  resolve: (answer: WalkAnswer) => void;
  reject: (error: unknown) => void;
}

type Reply = { id: number } & ({ answer: WalkAnswer } | { failure: unknown });

/** Plans walks on a thread of its own, one after the other; it is started when the first is asked for. */
@Injectable()
export class WalkThreadService implements OnModuleDestroy {
  private thread: Worker | null = null;
  private readonly waiting = new Map<number, Waiting>();
  private asked = 0;

  plan(question: WalkQuestion): Promise<WalkAnswer> {
    const thread = (this.thread ??= this.start());
    const id = ++this.asked;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      thread.postMessage({ id, question });
    });
  }

  async onModuleDestroy(): Promise<void> {
    const thread = this.thread;
    this.thread = null;
    await thread?.terminate();
  }

  private start(): Worker {
    const thread = new Worker(new URL('./walk.worker.js', import.meta.url));
    thread.unref();
    thread.on('message', (reply: Reply) => {
      const waiting = this.waiting.get(reply.id);
      this.waiting.delete(reply.id);
      if ('answer' in reply) waiting?.resolve(reply.answer);
      else waiting?.reject(reply.failure);
    });
    thread.on('error', (error) => this.lose(thread, error));
    thread.on('exit', () => this.lose(thread, new Error('The planning thread ended')));
    return thread;
  }

  /** Whoever waits is told, and the next one starts another. */
  private lose(thread: Worker, error: unknown): void {
    if (this.thread === thread) this.thread = null;
    for (const { reject } of this.waiting.values()) reject(error);
    this.waiting.clear();
  }
}
