using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Coldpeel.Desk.Rooms;

/// <summary>The workshop's own certificate for the local network: made here, kept in the data folder, made anew before it ends.</summary>
/// <remarks>Self-signed, ECDSA on P-256, for the names and addresses of this machine (RFC 5280 and RFC 6125: subject alternative names). Nobody
/// outside vouches for it: whoever lets a device in compares the fingerprint on the device with the one at the desk.</remarks>
public sealed class NetworkCertificate(OpenedWorkshop workshop) : IDisposable
{
    // Browsers take no longer ones (CA/Browser Forum, baseline requirements 6.3.2: 398 days).
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(397);
    private static readonly TimeSpan Before = TimeSpan.FromDays(30);

    // Addresses change seldom, and asking for them at every greeting is slow.
    private static readonly TimeSpan LookAgain = TimeSpan.FromMinutes(1);

    private readonly Lock _one = new();
    private X509Certificate2? _known;
    private DateTimeOffset _looked;

    /// <summary>The file that holds it with its key: for the account that runs the app only.</summary>
    public string File => Path.Combine(workshop.Folder, "keys", "network.pfx");

    /// <summary>The certificate that holds now.</summary>
    /// <exception cref="IOException">The data folder cannot be written.</exception>
    public X509Certificate2 Now()
    {
        lock (_one)
        {
            if (_known is not null && workshop.Now - _looked < LookAgain && workshop.Now >= _looked)
            {
                return _known;
            }

            _looked = workshop.Now;
            _known ??= Kept();
            // Handed out before: whoever still holds it goes on until the connection ends.
            return _known is not null && IsGood(_known) ? _known : _known = Make();
        }
    }

    /// <summary>Its fingerprint, SHA-256, as browsers show it: pairs of hexadecimal digits.</summary>
    public string Fingerprint =>
        string.Join(
            ' ',
            Convert.ToHexString(Now().GetCertHash(HashAlgorithmName.SHA256)).Chunk(2).Select(p => new string(p))
        );

    /// <summary>The certificate without its key (X.509, DER), for devices that are to trust it.</summary>
    public byte[] Public() => Now().Export(X509ContentType.Cert);

    /// <summary>The names and addresses under which this machine is reached in its networks; the likeliest first.</summary>
    public static IReadOnlyList<string> Hosts()
    {
        var name = Dns.GetHostName().ToLowerInvariant();
        string[] names = Uri.CheckHostName(name) == UriHostNameType.Dns ? [name, $"{name.Split('.')[0]}.local"] : [];
        return [.. Addresses().Select(a => a.ToString()), .. names.Distinct(StringComparer.Ordinal)];
    }

    /// <inheritdoc/>
    public void Dispose() => _known?.Dispose();

    // IPv6 addresses change by the day (RFC 8981), and the fingerprint would with them: the names lead there.
    private static IEnumerable<IPAddress> Addresses() =>
        NetworkInterface
            .GetAllNetworkInterfaces()
            .Where(n => n.OperationalStatus == OperationalStatus.Up)
            .Select(n => n.GetIPProperties())
            // What leads on to others is the workshop's network; what does not is often a machine inside this one.
            .OrderBy(n => n.GatewayAddresses.Count > 0 ? 0 : 1)
            .SelectMany(n => n.UnicastAddresses)
            .Select(a => a.Address)
            .Where(a => a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a));

    private bool IsGood(X509Certificate2 certificate)
    {
        var now = workshop.Now.UtcDateTime;
        return certificate.NotBefore.ToUniversalTime() <= now
            && now < certificate.NotAfter.ToUniversalTime() - Before
            && Hosts().All(h => certificate.MatchesHostname(h, allowCommonName: false));
    }

    private X509Certificate2? Kept()
    {
        try
        {
            return System.IO.File.Exists(File) ? X509CertificateLoader.LoadPkcs12FromFile(File, null) : null;
        }
        catch (CryptographicException)
        {
            // A damaged file is no loss: a new one is made, and devices compare its fingerprint.
            return null;
        }
    }

    private X509Certificate2 Make()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var asked = new CertificateRequest("CN=Coldpeel workshop", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        names.AddIpAddress(IPAddress.Loopback);
        foreach (var host in Hosts())
        {
            if (IPAddress.TryParse(host, out var address))
            {
                names.AddIpAddress(address);
            }
            else
            {
                names.AddDnsName(host);
            }
        }

        asked.CertificateExtensions.Add(names.Build());
        asked.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, true));
        asked.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true));
        // id-kp-serverAuth, RFC 5280, 4.2.1.12.
        asked.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new("1.3.6.1.5.5.7.3.1")], false));
        var from = workshop.Now.AddHours(-1);
        using var made = asked.CreateSelfSigned(from, from + Lasts);
        var bytes = made.Export(X509ContentType.Pkcs12);
        Write(bytes);
        return X509CertificateLoader.LoadPkcs12(bytes, null);
    }

    // Beside it first, then in its place: a power cut leaves the old one or the new one.
    private void Write(byte[] bytes)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(File)!);
        var beside = File + ".new";
        System.IO.File.Delete(beside);
        var how = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            how.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using (var file = new FileStream(beside, how))
        {
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }

        System.IO.File.Move(beside, File, overwrite: true);
    }
}
