using System.Net.Sockets;
using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Coldpeel.Web.Rooms;

/// <summary>Tells other programs what happens, in the background, to the addresses that the owner has named and nowhere else.</summary>
internal sealed partial class HookSender : BackgroundService
{
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly TellPrograms _programs;
    private readonly HttpClient _client;
    private readonly ILogger<HookSender> _log;

    public HookSender(OpenedWorkshop workshop, ILogger<HookSender> log)
    {
        (_programs, _log) = (new TellPrograms(workshop), log);
        // An answer that sends us elsewhere is not followed: only the named address learns anything.
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            UseCookies = false,
            UseProxy = false,
            PooledConnectionLifetime = TimeSpan.FromMinutes(5),
        };
        _client = new HttpClient(handler) { Timeout = Patience, MaxResponseContentBufferSize = 65_536 };
    }

    public override void Dispose()
    {
        _client.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Look);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                // As long as there is something to tell there is no reason to wait.
                while (_programs.Due() is { Length: > 0 } messages)
                {
                    await Task.WhenAll(messages.Select(m => Tell(m, stoppingToken)));
                }
            }
            catch (Exception fault) when (!stoppingToken.IsCancellationRequested)
            {
                // The store may be full or away for a while; what is not noted as told is told again.
                Failed(_log, fault);
            }
        }
    }

    [LoggerMessage(LogLevel.Error, "Other programs could not be told; it is tried again.")]
    private static partial void Failed(ILogger log, Exception fault);

    private async Task Tell(HookMessage message, CancellationToken stop)
    {
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, message.Address)
            {
                Content = new ReadOnlyMemoryContent(message.Body),
            };
            foreach (var (name, value) in message.Headers)
            {
                if (!request.Headers.TryAddWithoutValidation(name, value))
                {
                    request.Content.Headers.TryAddWithoutValidation(name, value);
                }
            }

            using var answer = await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, stop);
            _programs.Note(message, (int)answer.StatusCode, $"{(int)answer.StatusCode} {answer.StatusCode}");
        }
        catch (Exception missed) when (missed is HttpRequestException or IOException or SocketException)
        {
            _programs.Note(message, null, missed.Message.ReplaceLineEndings(" "));
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            _programs.Note(message, null, "no answer within 10 s");
        }
    }
}
