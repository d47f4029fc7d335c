/*
 * Solves a plan twice, with motifs from its folder and from a function of its own, and prints the
 * result, for example: plan fixtures/demo/plan.json fixtures/demo
 */
#include "quiltpath.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* All of a file, with a NUL after its end; null when it can't be read. */
static char *whole_file(const char *path, size_t *count)
{
    FILE *file = fopen(path, "rb");
    char *bytes = NULL;
    size_t room = 0;
    *count = 0;
    if (file == NULL)
        return NULL;
    do {
        char *more = realloc(bytes, (room += 65536) + 1);
        if (more == NULL) {
            free(bytes);
            fclose(file);
            return NULL;
        }
        bytes = more;
        *count += fread(bytes + *count, 1, room - *count, file);
    } while (*count == room);
    fclose(file);
    bytes[*count] = '\0';
    return bytes;
}

/* Gives a motif from the folder that the context is. */
static void read_motif(void *context, const char *name, quiltpath_motif *motif)
{
    const char *folder = context;
    size_t count;
    char *bytes = NULL;
    char *path = malloc(strlen(folder) + strlen(name) + 2);
    if (path != NULL) {
        sprintf(path, "%s/%s", folder, name);
        bytes = whole_file(path, &count);
        free(path);
    }
    if (bytes == NULL) {
        quiltpath_motif_refuse(motif, "no such file");
        return;
    }
    quiltpath_motif_bytes(motif, bytes, count);
    free(bytes);
}

int main(int argc, char **argv)
{
    char *plan, *result = NULL, *again = NULL, *error = NULL;
    size_t count;
    int32_t status;

    if (argc != 3) {
        fprintf(stderr, "usage: plan PLAN.json FOLDER\n");
        return 2;
    }
    plan = whole_file(argv[1], &count);
    if (plan == NULL) {
        fprintf(stderr, "%s can't be read\n", argv[1]);
        return 1;
    }
    status = quiltpath_plan_in_folder(plan, argv[2], &result, &error);
    if (status == QUILTPATH_DONE)
        status = quiltpath_plan(plan, read_motif, argv[2], &again, &error);
    if (status != QUILTPATH_DONE) {
        fprintf(stderr, "%s: %s\n", argv[1], error);
    } else if (strcmp(result, again) != 0) {
        fprintf(stderr, "the two ways differ\n");
        status = QUILTPATH_FAULT;
    } else {
        fprintf(stderr, "quiltpath %s\n", quiltpath_version());
        fputs(result, stdout);
    }
    quiltpath_free(result);
    quiltpath_free(again);
    quiltpath_free(error);
    free(plan);
    return (int)status;
}
