#!/bin/bash
# A study of 10,000 replications in 40 shares, as an array job of Slurm:
#
#     sbatch slurm.sh
#     loamcast merge study/*      # when all have ended; on any of these machines
#
# A share that was preempted, ran out of time or lost its machine goes on where it was when
# the job is submitted again. The folder must be one that all machines see.
#SBATCH --job-name=loamcast
#SBATCH --array=1-40
#SBATCH --cpus-per-task=2
#SBATCH --mem=2G
#SBATCH --time=02:00:00
#SBATCH --requeue
set -eu

exec loamcast study "${PLANT:-plant.yaml}" --replications "${REPLICATIONS:-10000}" \
	--shard "$SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT" \
	--workers "$SLURM_CPUS_PER_TASK" \
	--out "${STUDY:-study}/$SLURM_ARRAY_TASK_ID" --resume
