# Builds from a clean clone. The base images may be replaced by ones of the same kind from another registry.
ARG SDK_IMAGE=mcr.microsoft.com/dotnet/sdk:10.0
ARG RUNTIME_IMAGE=mcr.microsoft.com/dotnet/aspnet:10.0

FROM ${SDK_IMAGE} AS build
WORKDIR /source
COPY . .
# Compiled ahead: a start then takes two thirds of the time.
RUN dotnet publish src/Recommender.Api -c Release --use-current-runtime --self-contained false -p:PublishReadyToRun=true -o /published

FROM ${RUNTIME_IMAGE}
WORKDIR /service
COPY --from=build /published .
# A numeric user needs no entry in the image; the volume is the only place it writes to, so that the rest may be mounted read-only.
RUN mkdir -p /var/lib/recommender && chown 10001:10001 /var/lib/recommender
USER 10001:10001
VOLUME /var/lib/recommender
ENV Storage__Path=/var/lib/recommender \
    Logging__Console__FormatterName=json \
    DOTNET_EnableDiagnostics=0
HEALTHCHECK --interval=30s --timeout=5s --start-period=15s CMD ["dotnet", "Recommender.Api.dll", "health"]
# SIGTERM drains; give it as long as Work__DrainSeconds and Work__StopSeconds together.
STOPSIGNAL SIGTERM
ENTRYPOINT ["dotnet", "Recommender.Api.dll"]
