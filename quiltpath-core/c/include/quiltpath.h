/*
 * quiltpath: takes a plan as JSON and gives its result as JSON.
 *
 * Texts are UTF-8 and end with a NUL. What a call gives in `*result` and `*error` belongs to the
 * caller, who frees it with quiltpath_free and no other function. What the caller passes in stays
 * the caller's; nothing of it is kept when a call returns.
 *
 * Any number of threads may call at once: calls share nothing. A call needs no more stack than an
 * ordinary thread has (2 MiB are enough).
 *
 * No call prints, exits or throws. Null pointers and texts that are not UTF-8 give
 * QUILTPATH_BAD_CALL; other bad pointers can't be noticed.
 */
#ifndef QUILTPATH_H
#define QUILTPATH_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* What a call returns. */
#define QUILTPATH_DONE 0     /* *result is there, *error is null */
#define QUILTPATH_BAD_DATA 1 /* the plan or a motif is wrong or can't be read; *error names the place */
#define QUILTPATH_BAD_CALL 2 /* a pointer is null or a text is not UTF-8; *error names it */
#define QUILTPATH_FAULT 3    /* a fault of quiltpath itself, which should not happen */

/* A motif that a plan asks for; valid until the function that was called with it returns. */
typedef struct quiltpath_motif quiltpath_motif;

/*
 * Called for each motif of a plan, in the thread of the call and before that returns. It answers
 * with quiltpath_motif_bytes or quiltpath_motif_refuse. `name` is the motif's name in the plan. It
 * must return normally: no longjmp and no exception may leave it.
 */
typedef void (*quiltpath_read_motif)(void *context, const char *name, quiltpath_motif *motif);

/* The version of the library, such as "0.1.0". Never free it. */
const char *quiltpath_version(void);

/*
 * Solves a plan, with its passes and stitches. `plan` is the text of a plan.json; its motifs are
 * files, with paths relative to `folder`. `*result` is the text of a result.json, which the guide's
 * chapter on results describes. `error` may be null. A plan may name any file that the process can
 * read, so use quiltpath_plan for plans that you don't trust.
 */
int32_t quiltpath_plan_in_folder(const char *plan, const char *folder, char **result, char **error);

/*
 * The same, but motifs come from `read_motif`, which is passed `context` as it is. Drawings are
 * SVG, JSON point lists or JSON Lines. No file is opened.
 */
int32_t quiltpath_plan(const char *plan, quiltpath_read_motif read_motif, void *context, char **result, char **error);

/* Answers with the `count` bytes of a drawing; they are copied. */
void quiltpath_motif_bytes(quiltpath_motif *motif, const void *bytes, size_t count);

/* Answers with the reason why there is no drawing; the call then returns QUILTPATH_BAD_DATA. */
void quiltpath_motif_refuse(quiltpath_motif *motif, const char *reason);

/* Frees what a call gave. Null is ignored. */
void quiltpath_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
