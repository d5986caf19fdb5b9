# What is installed, and where. All of it works under any prefix; /usr is what the package has.

set(packaging ${CMAKE_CURRENT_SOURCE_DIR}/packaging)

# Manual pages and completions are written by a program that knows the commands as the program itself does.
add_executable(coilward_manual ${packaging}/main.cpp)
target_link_libraries(coilward_manual PRIVATE coilward_packaging)
set(manual ${CMAKE_BINARY_DIR}/manual)
add_custom_command(OUTPUT ${manual}/written
    COMMAND ${CMAKE_COMMAND} -E rm -rf ${manual}
    COMMAND coilward_manual ${manual}
    COMMAND sh -c "gzip -9n ${manual}/man/*.1"
    COMMAND ${CMAKE_COMMAND} -E touch ${manual}/written
    DEPENDS coilward_manual VERBATIM)
add_custom_target(manual ALL DEPENDS ${manual}/written)

install(TARGETS coilward_to_install RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/rules ${PROJECT_SOURCE_DIR}/drivers
        DESTINATION ${CMAKE_INSTALL_DATADIR}/coilward FILES_MATCHING PATTERN "*.toml")
install(DIRECTORY ${manual}/man/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${manual}/completions/coilward.bash
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME coilward)
install(FILES ${manual}/completions/_coilward DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${manual}/completions/coilward.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
install(FILES ${PROJECT_SOURCE_DIR}/drivers/70-coilward-meters.rules DESTINATION lib/udev/rules.d)

# The service names the program by its whole path, which is known only now.
install(CODE "
    set(program \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_BINDIR}/coilward\")
    configure_file(\"${packaging}/coilward.service.in\" \"${CMAKE_BINARY_DIR}/to-install/coilward.service\" @ONLY)")
install(FILES ${CMAKE_BINARY_DIR}/to-install/coilward.service DESTINATION lib/systemd/user)

install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES ${packaging}/copyright DESTINATION ${CMAKE_INSTALL_DOCDIR})
add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/to-install/changelog.gz
    COMMAND sh -c "gzip -9nc ${packaging}/changelog > ${CMAKE_BINARY_DIR}/to-install/changelog.gz"
    DEPENDS ${packaging}/changelog VERBATIM)
add_custom_target(changelog ALL DEPENDS ${CMAKE_BINARY_DIR}/to-install/changelog.gz)
install(FILES ${CMAKE_BINARY_DIR}/to-install/changelog.gz DESTINATION ${CMAKE_INSTALL_DOCDIR})

add_custom_target(uninstall
    COMMAND ${CMAKE_COMMAND} -DMANIFEST=${CMAKE_BINARY_DIR}/install_manifest.txt -P ${packaging}/uninstall.cmake VERBATIM)
