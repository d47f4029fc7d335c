/*
 * quiltpath: a plan as JSON in, its result as JSON out.
 *
 * Texts are UTF-8 and end with a NUL. What a call gives in `*result` and `*error` belongs to the
 * caller, who frees it with quiltpath_free and no other function. What the caller passes in stays
 * the caller's; nothing of it is kept when a call returns.
 *
 * Any number of threads may call at once: calls share nothing. A call takes as much stack as an
 * ordinary thread has (2 MiB do).
 *
 * No call prints, exits or throws. Null pointers and texts that are not UTF-8 are answered with
 * QUILTPATH_BAD_CALL; other bad pointers are the caller's fault and can't be noticed.
 */
#ifndef QUILTPATH_H
#define QUILTPATH_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* What a call answers. */
#define QUILTPATH_DONE 0     /* *result is there, *error is null */
#define QUILTPATH_BAD_DATA 1 /* the plan or a motif is wrong or can't be read; *error says where */
#define QUILTPATH_BAD_CALL 2 /* a pointer is null or a text is not UTF-8; *error says which */
#define QUILTPATH_FAULT 3    /* a fault of quiltpath itself, which should not happen */

/* One motif that a plan asks for; valid until the function that was called with it returns. */
typedef struct quiltpath_motif quiltpath_motif;

/*
 * Called for the motifs of a plan, in the thread of the call and before it returns: answers with
 * quiltpath_motif_bytes or quiltpath_motif_refuse. `name` is the motif's name in the plan. It must
 * return: no longjmp and no exception may leave it.
 */
typedef void (*quiltpath_read_motif)(void *context, const char *name, quiltpath_motif *motif);

/* The version of the library, such as "0.1.0". Not to be freed. */
const char *quiltpath_version(void);

/*
 * Solves a plan and brings it to the machine. `plan` is the text of a plan.json; motifs are files,
 * their paths seen from `folder`. `*result` is the text of the result.json that the chapter on
 * results in the guide describes. `error` may be null. A plan may name any file that the process can read: plans of
 * strangers are for quiltpath_plan.
 */
int32_t quiltpath_plan_in_folder(const char *plan, const char *folder, char **result, char **error);

/*
 * The same, with motifs given by `read_motif`, which gets `context` as it is. Drawings are SVG,
 * JSON point lists or JSON Lines. No file is opened.
 */
int32_t quiltpath_plan(const char *plan, quiltpath_read_motif read_motif, void *context, char **result, char **error);

/* Answers with the `count` bytes of a drawing, which are copied. */
void quiltpath_motif_bytes(quiltpath_motif *motif, const void *bytes, size_t count);

/* Answers with the reason why there is no drawing; the call then ends with QUILTPATH_BAD_DATA. */
void quiltpath_motif_refuse(quiltpath_motif *motif, const char *reason);

/* Frees what a call gave. Null is let be. */
void quiltpath_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
