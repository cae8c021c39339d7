using Coldpeel.Desk;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Artwork;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Orders;
using Coldpeel.Web.Press;
using Coldpeel.Web.Press.Bench;
using Coldpeel.Web.Rooms;
using Coldpeel.Web.Sheets;
using Coldpeel.Web.Shelf;
using Coldpeel.Web.Shelf.Book;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Coldpeel.Web;

/// <summary>The workshop in a browser.</summary>
public static class WorkshopApp
{
    // A whole page: past this many bytes the writing waits for the reader, and then behind all other questions for its turn.
    private const int MostInOneGo = 512 * 1024;

    /// <summary>Builds the app over a folder; it listens once it is started.</summary>
    /// <exception cref="InvalidOperationException">The folder cannot be opened: <see cref="OpenWorkshop"/> says so without an exception.</exception>
    public static WebApplication Build(string dataFolder, string url, TimeProvider clock)
    {
        var opened = OpenWorkshop.Run(dataFolder, clock);
        return opened.Ok ? Build(opened.Value, url) : throw new InvalidOperationException(opened.Fault.ToString());
    }

    /// <summary>Builds the app over an open workshop; it listens once it is started.</summary>
    public static WebApplication Build(OpenedWorkshop workshop, string url)
    {
        ArgumentNullException.ThrowIfNull(workshop);
        // Empty: no settings file of the folder we happen to stand in, and no variable of the shell, changes what is served.
        var builder = WebApplication.CreateEmptyBuilder(new() { ContentRootPath = AppContext.BaseDirectory });
        var certificate = new NetworkCertificate(workshop);
        var network = new NetworkDoor(workshop, certificate, url);
        builder.WebHost.UseKestrelCore().UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Configure(network.Endpoints, reloadOnChange: true);
            kestrel.ConfigureHttpsDefaults(https => https.ServerCertificateSelector = (_, _) => certificate.Now());
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = OrderRoutes.MostBytes;
        });
        builder.Services.Configure<SocketTransportOptions>(sockets => sockets.MaxWriteBufferSize = MostInOneGo);
        builder
            .Logging.SetMinimumLevel(LogLevel.Warning)
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error)
            // A port that is taken is told by whoever starts the app, in one line.
            .AddFilter("Microsoft.Extensions.Hosting", LogLevel.None)
            .AddSimpleConsole(console => console.SingleLine = true);
        builder.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(console =>
            console.LogToStandardErrorThreshold = LogLevel.Trace
        );
        Add(builder.Services, workshop);
        builder.Services.AddSingleton(_ => certificate);
        builder.Services.AddSingleton(_ => network);

        var app = builder.Build();
        Guards.Use(app);
        Reader.Use(app, workshop);
        app.UseExceptionHandler(
            new ExceptionHandlerOptions
            {
                ExceptionHandler = Endings.Fault,
                SuppressDiagnosticsCallback = Endings.IsTold,
            }
        );
        app.UseStatusCodePages(Endings.Missing);
        Gate.Use(app, workshop, new KnownHosts(url));
        AssetRoutes.Map(app);
        OrderRoutes.Map(app);
        AnswerRoutes.Map(app);
        EnterRoutes.Map(app);
        ChangeRoutes.Map(app);
        ArtworkRoutes.Map(app);
        AllArtworkRoutes.Map(app);
        SheetsRoutes.Map(app);
        OrderInterface.Map(app);
        TicketRoutes.Map(app);
        BenchRoutes.Map(app);
        WorkshopRoutes.Map(app);
        ProgramRoutes.Map(app);
        ShelfRoutes.Map(app);
        SearchRoutes.Map(app);
        EditRoutes.Map(app);
        BookRoutes.Map(app);
        app.Lifetime.ApplicationStarted.Register(network.OpenAtStart);
        return app;
    }

    private static void Add(IServiceCollection services, OpenedWorkshop workshop)
    {
        services.AddSingleton(workshop);
        services.AddHostedService<HookSender>();
        // Whoever closes the app does not wait for an order that is still being made.
        services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(3));
        services.AddRoutingCore();
        services.AddRazorComponents();
        services.AddAntiforgery(form =>
        {
            form.Cookie.Name = "coldpeel-form";
            form.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services
            .AddDataProtection()
            .SetApplicationName("coldpeel")
            .PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(workshop.Folder, "keys")));
        services.Configure<FormOptions>(form => form.MultipartBodyLengthLimit = OrderRoutes.MostBytes);
    }
}
