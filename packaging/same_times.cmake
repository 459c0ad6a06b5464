# SPDX-License-Identifier: MIT
# Run by cpack between putting the files together and packing them: a checkout's own times would make
# each package differ.
execute_process(COMMAND find ${CPACK_TEMPORARY_DIRECTORY} -exec
                        touch --no-dereference --date=@$ENV{SOURCE_DATE_EPOCH} {} +
                COMMAND_ERROR_IS_FATAL ANY)
